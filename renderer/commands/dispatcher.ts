import { type Chord, type KeyStroke, matchesChord, parseChord } from './chord.ts';
import { bindingsOf, type CommandTable, type KeyBinding, type RoomName } from './command.ts';

/** What a mounted part of the window does for a command. */
export interface CommandHandler {
  readonly do: () => void;
  /** the command is offered only while this holds */
  readonly when?: () => boolean;
  /** what begins when the key stays down, after `do`; the function it gives ends it when the key comes up */
  readonly hold?: () => () => void;
}

/** How long a key stays down before it counts as held, ms (a tap is over well before; value by trial). */
const HOLD_MS = 220;

interface HeldKey {
  readonly code: string;
  timer: ReturnType<typeof setTimeout> | null;
  end: (() => void) | null;
}

/** Where the focus is when a key is pressed. */
export interface FocusPlace {
  readonly inText: boolean;
  /** nearest `data-keys` around the focus */
  readonly marked: string | null;
  /** a focused button or link takes Enter and Space itself */
  readonly takesEnterAndSpace: boolean;
}

interface Bound {
  readonly name: string;
  readonly layer: number;
  readonly handler: () => CommandHandler;
}

/**
 * Joins keys to what is mounted. A layer is a sheet over the room (film over a table, a dialog): while one is open
 * only its own commands act, and those of the station.
 */
export class Dispatcher {
  private bound: Bound[] = [];
  private layers: number[] = [0];
  private nextLayer = 1;
  private chords: { binding: KeyBinding; chord: Chord }[] = [];
  private listeners = new Set<() => void>();
  private held: HeldKey | null = null;
  room: RoomName | null = null;

  constructor(
    table: CommandTable,
    private readonly mac: boolean,
  ) {
    this.useTable(table);
  }

  useTable(table: CommandTable): void {
    this.chords = bindingsOf(table).map((binding) => ({ binding, chord: parseChord(binding.chord) }));
    this.tell();
  }

  subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  bind(name: string, layer: number, handler: () => CommandHandler): () => void {
    const entry: Bound = { name, layer, handler };
    this.bound.push(entry);
    this.tell();
    return () => {
      this.bound = this.bound.filter((other) => other !== entry);
      this.tell();
    };
  }

  newLayer(): number {
    return this.nextLayer++;
  }

  openLayer(layer: number): () => void {
    this.layers.push(layer);
    return () => {
      this.layers = this.layers.filter((other) => other !== layer);
    };
  }

  /** The handler that the command would reach now: the last one bound in the topmost layer, else the station's. */
  handlerOf(name: string): CommandHandler | null {
    const top = this.layers.at(-1);
    const entry =
      this.bound.findLast((each) => each.name === name && each.layer === top) ??
      this.bound.findLast((each) => each.name === name && each.layer === -1);
    const handler = entry?.handler();
    return handler && (handler.when?.() ?? true) ? handler : null;
  }

  run(name: string): boolean {
    const handler = this.handlerOf(name);
    handler?.do();
    return handler !== null;
  }

  /**
   * Runs a command for a key that went down. A command that can be held acts once, and again as something else while the
   * key stays down; how fast the system repeats keys does not matter to it.
   */
  press(name: string, key: { readonly code: string; readonly repeat: boolean }): void {
    const handler = this.handlerOf(name);
    if (!handler?.hold) {
      handler?.do();
      return;
    }
    if (key.repeat || this.held?.code === key.code) return;
    this.release();
    const held: HeldKey = { code: key.code, timer: null, end: null };
    this.held = held;
    handler.do();
    held.timer = setTimeout(() => {
      held.end = handler.hold?.() ?? null;
    }, HOLD_MS);
  }

  /** A key came up, or (without one) the window lost the keys altogether. */
  release(code?: string): void {
    const { held } = this;
    if (!held || (code !== undefined && code !== held.code)) return;
    this.held = null;
    if (held.timer !== null) clearTimeout(held.timer);
    held.end?.();
  }

  /** The command that the stroke means here and now, if any; its handler is there and willing. */
  match(stroke: KeyStroke, focus: FocusPlace): string | null {
    if (focus.takesEnterAndSpace && (stroke.key === 'Enter' || stroke.key === ' ')) return null;
    for (const { binding, chord } of this.chords) {
      if (binding.room !== null && binding.room !== this.room) continue;
      const { place } = binding;
      const here =
        typeof place === 'object'
          ? place.in === focus.marked
          : place === 'text'
            ? focus.inText
            : !focus.inText;
      if (here && matchesChord(chord, stroke, this.mac) && this.handlerOf(binding.name)) return binding.name;
    }
    return null;
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

/** Layer of what belongs to the station itself and acts over everything. */
export const STATION_LAYER = -1;
