import { contextBridge, ipcRenderer, webUtils } from 'electron';
import { CHANNELS, type DesktopBridge } from './bridge.ts';

const bridge: DesktopBridge = {
  platform: process.platform,
  chooseFiles: (kind) => ipcRenderer.invoke(CHANNELS.chooseFiles, kind),
  chooseFolder: () => ipcRenderer.invoke(CHANNELS.chooseFolder),
  saveAs: (suggested) => ipcRenderer.invoke(CHANNELS.saveAs, suggested),
  // older runtimes put the path on the file itself
  pathForFile: (file) =>
    (webUtils ? webUtils.getPathForFile(file) : ((file as File & { path?: string }).path ?? '')) || null,
  reveal: (path) => ipcRenderer.invoke(CHANNELS.reveal, path),
  setMenus: (menus) => ipcRenderer.invoke(CHANNELS.setMenus, menus),
  onCommand: (listener) => {
    const heard = (_event: unknown, name: string) => listener(name);
    ipcRenderer.on(CHANNELS.command, heard);
    return () => ipcRenderer.off(CHANNELS.command, heard);
  },
};

contextBridge.exposeInMainWorld('tapebookDesktop', bridge);
