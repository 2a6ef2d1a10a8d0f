/** What the window may ask of the desktop: only what a page cannot do by itself. One list for both sides. */
export interface DesktopBridge {
  readonly platform: string;
  /** paths of the chosen files; empty when nothing was chosen */
  chooseFiles(kind: 'film' | 'sheet'): Promise<readonly string[]>;
  chooseFolder(): Promise<string | null>;
  /** a path to write to; null when nothing was chosen */
  saveAs(suggested: string): Promise<string | null>;
  /** where a dropped file lies on this machine */
  pathForFile(file: File): string | null;
  reveal(path: string): Promise<void>;
  /** names the menus run: the window says which commands it has, the shell says which was chosen */
  setMenus(menus: readonly MenuGroup[]): Promise<void>;
  onCommand(listener: (name: string) => void): () => void;
}

export interface MenuGroup {
  readonly label: string;
  readonly items: readonly { readonly name: string; readonly label: string; readonly keys?: string }[];
}

/** Names of the messages between window and shell. */
export const CHANNELS = {
  chooseFiles: 'tapebook:choose-files',
  chooseFolder: 'tapebook:choose-folder',
  saveAs: 'tapebook:save-as',
  reveal: 'tapebook:reveal',
  setMenus: 'tapebook:set-menus',
  command: 'tapebook:command',
} as const;
