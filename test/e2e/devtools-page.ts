import WebSocket from 'ws';

/**
 * A page driven over the Chrome DevTools Protocol alone. Electron has no browser contexts, which the test runner's own
 * driver asks for, so the shell's window is driven by this.
 */
export interface DevtoolsPage {
  /** runs a function in the page's own world and gives its result */
  evaluate<T, A = undefined>(work: (given: A) => T | Promise<T>, given?: A): Promise<T>;
  type(text: string): Promise<void>;
  /** as `Control+Shift+z`, `Enter`, `/` */
  press(chord: string): Promise<void>;
  /** waits until the page shows the text */
  shows(text: string): Promise<void>;
  close(): void;
}

const NAMED: Readonly<Record<string, readonly [code: string, keyCode: number, text?: string]>> = {
  Enter: ['Enter', 13, '\r'],
  Escape: ['Escape', 27],
};
const MODIFIERS: Readonly<Record<string, number>> = { Alt: 1, Control: 2, Meta: 4, Shift: 8 };

/** @param port the one that the program's debugger listens on */
export async function connectPage(port: string): Promise<DevtoolsPage> {
  const url = await findPage(port);
  const socket = new WebSocket(url);
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  let last = 0;
  const waiting = new Map<number, { resolve(value: never): void; reject(error: Error): void }>();
  socket.on('message', (data) => {
    const { id, result, error } = JSON.parse(String(data)) as {
      id?: number;
      result?: never;
      error?: { message: string };
    };
    const asked = id === undefined ? undefined : waiting.get(id);
    if (!asked || id === undefined) return;
    waiting.delete(id);
    if (error) asked.reject(new Error(error.message));
    else asked.resolve(result as never);
  });
  const send = <T>(method: string, params: object): Promise<T> =>
    new Promise<T>((resolve, reject) => {
      last += 1;
      waiting.set(last, { resolve: resolve as never, reject });
      socket.send(JSON.stringify({ id: last, method, params }));
    });
  const run = async <T>(expression: string): Promise<T> => {
    const answer = await send<{
      result: { value: T };
      exceptionDetails?: { text: string; exception?: { description?: string } };
    }>('Runtime.evaluate', { expression, awaitPromise: true, returnByValue: true, userGesture: true });
    if (answer.exceptionDetails)
      throw new Error(answer.exceptionDetails.exception?.description ?? answer.exceptionDetails.text);
    return answer.result.value;
  };
  const press = async (chord: string): Promise<void> => {
    const parts = chord === '+' ? ['+'] : chord.split('+');
    const key = parts.pop() ?? '';
    const modifiers = parts.reduce((sum, m) => sum + (MODIFIERS[m] ?? 0), 0);
    const upper = key.toUpperCase();
    const code = /^\d$/.test(key)
      ? `Digit${key}`
      : /^[a-z]$/i.test(key)
        ? `Key${upper}`
        : key === '/'
          ? 'Slash'
          : '';
    const [named, keyCode, text] = NAMED[key] ?? [
      code,
      upper.charCodeAt(0),
      modifiers & ~8 ? undefined : key,
    ];
    const base = { key, code: named, windowsVirtualKeyCode: keyCode, modifiers };
    await send('Input.dispatchKeyEvent', {
      type: text ? 'keyDown' : 'rawKeyDown',
      ...base,
      ...(text ? { text } : {}),
    });
    await send('Input.dispatchKeyEvent', { type: 'keyUp', ...base });
  };
  return {
    evaluate: (work, given) => run(`(${work.toString()})(${JSON.stringify(given) ?? ''})`),
    press,
    type: async (text) => {
      for (const letter of text) await press(letter);
    },
    shows: async (text) => {
      const until = Date.now() + 20_000;
      const has = `document.documentElement.textContent.includes(${JSON.stringify(text)})`;
      // a page that is just being loaded has no world to ask in yet
      while (!(await run<boolean>(has).catch(() => false))) {
        if (Date.now() > until) {
          const shown = await run<string>('document.body.innerText.slice(0, 600)');
          throw new Error(`The page does not show “${text}”: ${shown}`);
        }
        await new Promise((done) => setTimeout(done, 100));
      }
    },
    close: () => socket.close(),
  };
}

async function findPage(port: string): Promise<string> {
  const until = Date.now() + 30_000;
  for (;;) {
    const pages = (await (await fetch(`http://127.0.0.1:${port}/json`)).json()) as {
      type: string;
      url: string;
      webSocketDebuggerUrl: string;
    }[];
    const page = pages.find((p) => p.type === 'page' && p.url.startsWith('http'));
    if (page) return page.webSocketDebuggerUrl;
    if (Date.now() > until) throw new Error('The shell opened no window.');
    await new Promise((done) => setTimeout(done, 200));
  }
}
