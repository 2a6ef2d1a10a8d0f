import type { MenuGroup } from '../commands/menu.ts';

/** What the shell offers a page, and only inside the shell: paths of this machine, dialogs and menus. */
export interface DesktopBridge {
  chooseFiles(kind: 'film' | 'sheet'): Promise<string[] | null>;
  chooseFolder(): Promise<string | null>;
  saveAs(suggested: string): Promise<string | null>;
  pathForFile(file: File): Promise<string | null>;
  reveal(path: string): Promise<void>;
  readonly platform: string;
  /** builds the native menus; choosing an item calls back with the command's name */
  setMenus?(groups: readonly MenuGroup[], onCommand: (name: string) => void): void;
}

declare global {
  interface Window {
    tapebookDesktop?: DesktopBridge;
  }
}

export const desktop = (): DesktopBridge | undefined => window.tapebookDesktop;
