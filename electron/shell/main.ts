import { dirname, isAbsolute, join } from 'node:path';
import { app, BrowserWindow, dialog, type IpcMainInvokeEvent, ipcMain, shell } from 'electron';
import { CHANNELS, type MenuGroup } from './bridge.ts';
import { lockDown } from './lock-down.ts';
import { buildMenus } from './menus.ts';
import { type ServiceProcess, startService } from './service-process.ts';

const FILTERS = {
  film: [
    {
      name: 'Film',
      extensions: ['mp4', 'm4v', 'mov', 'mkv', 'webm', 'avi', 'mts', 'm2ts', 'ts', 'mpg', 'mpeg', 'wmv'],
    },
  ],
  sheet: [{ name: 'Sheets', extensions: ['csv', 'tsv', 'xlsx'] }],
};

let service: ServiceProcess | null = null;

async function open(): Promise<void> {
  const node = process.env.TAPEBOOK_NODE ?? 'node';
  const args = JSON.parse(process.env.TAPEBOOK_SERVICE ?? '[]') as string[];
  service = await startService(node, args, (code) => {
    service = null;
    dialog.showErrorBox(
      'Tapebook',
      `The service stopped (code ${code}). What was saved is kept. Start Tapebook again.`,
    );
    app.quit();
  });
  lockDown(service.origin);
  const window = new BrowserWindow({
    width: 1440,
    height: 900,
    minWidth: 1100,
    minHeight: 700,
    show: false,
    backgroundColor: '#10141a',
    title: 'Tapebook',
    webPreferences: {
      preload: join(dirname(__filename), 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      spellcheck: false,
    },
  });
  answer(window, service.origin);
  buildMenus(window, []);
  window.once('ready-to-show', () => window.show());
  await window.loadURL(service.address);
}

/** Only the page itself, in its main frame and from the service, is answered. */
function answer(window: BrowserWindow, origin: string): void {
  const handle = <Args extends unknown[], Answer>(
    channel: string,
    work: (...args: Args) => Answer | Promise<Answer>,
  ) => {
    ipcMain.handle(channel, (event: IpcMainInvokeEvent, ...args: unknown[]) => {
      const frame = event.senderFrame;
      if (
        event.sender !== window.webContents ||
        frame?.parent ||
        new URL(frame?.url ?? 'about:blank').origin !== origin
      ) {
        throw new Error('This page may not ask the desktop.');
      }
      return work(...(args as Args));
    });
  };
  handle(CHANNELS.chooseFiles, async (kind: 'film' | 'sheet') => {
    const chosen = await dialog.showOpenDialog(window, {
      properties: kind === 'film' ? ['openFile', 'multiSelections'] : ['openFile'],
      filters: FILTERS[kind] ?? [],
    });
    return chosen.canceled ? [] : chosen.filePaths;
  });
  handle(CHANNELS.chooseFolder, async () => {
    const chosen = await dialog.showOpenDialog(window, { properties: ['openDirectory'] });
    return chosen.canceled ? null : (chosen.filePaths[0] ?? null);
  });
  handle(CHANNELS.saveAs, async (suggested: string) => {
    const chosen = await dialog.showSaveDialog(window, { defaultPath: String(suggested) });
    return chosen.canceled ? null : (chosen.filePath ?? null);
  });
  handle(CHANNELS.reveal, (path: string) => {
    if (isAbsolute(path)) shell.showItemInFolder(path);
  });
  handle(CHANNELS.setMenus, (menus: readonly MenuGroup[]) => buildMenus(window, menus));
}

// with --no-sandbox (tests under root) this would stop every helper process; the window's own sandbox setting stays
if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
app
  .whenReady()
  .then(open)
  .catch((error: Error) => {
    const message = error.message.replace(/secret=[\w-]+/g, 'secret=...');
    dialog.showErrorBox('Tapebook', message);
    process.stderr.write(`${message}\n`);
    app.exit(2);
  });
app.on('window-all-closed', () => app.quit());
app.on('will-quit', () => service?.stop());
