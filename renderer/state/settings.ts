/**
 * Choices of this window that are no part of the library: keys, speeds, widths. The one place that knows where
 * they are kept.
 */
const PREFIX = 'tapebook.';

export function readSetting<T>(name: string, otherwise: T): T {
  try {
    const text = localStorage.getItem(PREFIX + name);
    return text === null ? otherwise : (JSON.parse(text) as T);
  } catch {
    // a setting that cannot be read is no reason not to work
    return otherwise;
  }
}

export function writeSetting(name: string, value: unknown): void {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // a full or forbidden store costs the setting, not the work
  }
}
