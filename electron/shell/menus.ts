import { type BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';
import { CHANNELS, type MenuGroup } from './bridge.ts';

/** The keys stand in the menus for reading; the window itself listens to them, so that both never act at once. */
export function buildMenus(window: BrowserWindow, groups: readonly MenuGroup[]): void {
  const ours = groups.map(
    (group): MenuItemConstructorOptions => ({
      label: group.label,
      submenu: group.items.map((item) => ({
        label: item.label,
        ...(item.keys ? { accelerator: item.keys, registerAccelerator: false } : {}),
        click: () => window.webContents.send(CHANNELS.command, item.name),
      })),
    }),
  );
  const edit: MenuItemConstructorOptions = {
    label: 'Text',
    submenu: [{ role: 'cut' }, { role: 'copy' }, { role: 'paste' }, { role: 'selectAll' }],
  };
  const view: MenuItemConstructorOptions = {
    label: 'Window',
    submenu: [
      { role: 'togglefullscreen' },
      { role: 'zoomIn' },
      { role: 'zoomOut' },
      { role: 'resetZoom' },
      { role: 'minimize' },
      { role: 'quit' },
    ],
  };
  Menu.setApplicationMenu(Menu.buildFromTemplate([...ours, edit, view]));
}
