import { app, session, type WebContents } from 'electron';

/** The window shows this service and nothing else: no other page, no new windows, no permissions, no downloads. */
export function lockDown(origin: string): void {
  session.defaultSession.setPermissionRequestHandler((_contents, permission, allow) =>
    allow(permission === 'fullscreen'),
  );
  session.defaultSession.setPermissionCheckHandler(
    (_contents, permission) => (permission as string) === 'fullscreen',
  );
  session.defaultSession.on('will-download', (event) => event.preventDefault());
  app.on('web-contents-created', (_event, contents) => lockContents(contents, origin));
}

function lockContents(contents: WebContents, origin: string): void {
  const refuse = (event: { preventDefault(): void }, url: string) => {
    if (new URL(url).origin !== origin) event.preventDefault();
  };
  contents.on('will-navigate', (event, url) => refuse(event, url));
  contents.on('will-redirect', (event, url) => refuse(event, url));
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}
