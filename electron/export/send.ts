import type { Writable } from 'node:stream';

/** Writes and waits until there is room again; returns at once when the other end has gone. */
export async function send(input: Writable, bytes: Buffer): Promise<void> {
  if (input.destroyed || input.write(bytes)) return;
  await new Promise<void>((resolve) => {
    const go = () => {
      input.off('drain', go);
      input.off('close', go);
      resolve();
    };
    input.on('drain', go);
    input.on('close', go);
  });
}
