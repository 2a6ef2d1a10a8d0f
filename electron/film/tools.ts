import { access, constants } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { delimiter, isAbsolute, join } from 'node:path';
import { fail, ok, type Result } from '../../football/result.ts';
import type { FilmTool, FilmTools } from './film-types.ts';
import { runProgram } from './run.ts';

export interface NamedTools {
  /** default: the environment's TAPEBOOK_FFMPEG */
  readonly ffmpeg?: string;
  /** default: the environment's TAPEBOOK_FFPROBE */
  readonly ffprobe?: string;
}

const VERSION_LIMIT_MS = 20_000;

async function onPath(name: string): Promise<string | null> {
  const endings = process.platform === 'win32' ? ['.exe'] : [''];
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    if (!isAbsolute(folder)) continue;
    for (const ending of endings) {
      const candidate = join(folder, name + ending);
      const usable = await access(candidate, constants.X_OK).then(
        () => true,
        () => false,
      );
      if (usable) return candidate;
    }
  }
  return null;
}

function bundledFfmpeg(): string | null {
  try {
    return (createRequire(import.meta.url)('@ffmpeg-installer/ffmpeg') as { path: string }).path;
  } catch {
    return null;
  }
}

async function tryTool(path: string | null | undefined, from: FilmTool['from']): Promise<FilmTool | null> {
  if (!path) return null;
  let words = '';
  const end = await runProgram(path, ['-hide_banner', '-version'], {
    timeLimitMs: VERSION_LIMIT_MS,
    onOutput: (chunk) => {
      words += chunk.toString('utf8');
    },
  });
  const version = /^ff(?:mpeg|probe) version (\S+)/.exec(words)?.[1];
  return end.code === 0 && version ? { path, version, from } : null;
}

/**
 * Finds ffmpeg: the one named by the user, else the one on PATH, else the one that came with the packages.
 * A named one that does not run is a problem rather than passed over in silence. ffprobe is a convenience.
 */
export async function findFilmTools(named: NamedTools = {}): Promise<Result<FilmTools>> {
  const namedFfmpeg = named.ffmpeg ?? process.env.TAPEBOOK_FFMPEG;
  const namedFfprobe = named.ffprobe ?? process.env.TAPEBOOK_FFPROBE;
  const ffprobe = namedFfprobe
    ? await tryTool(namedFfprobe, 'named')
    : await tryTool(await onPath('ffprobe'), 'path');
  if (namedFfmpeg) {
    const tool = await tryTool(namedFfmpeg, 'named');
    if (tool) return ok({ ffmpeg: tool, ffprobe });
    return fail({
      code: 'film-tool-missing',
      message: `The ffmpeg that was named, ${namedFfmpeg}, does not run.`,
      next: 'Name another one in TAPEBOOK_FFMPEG, or leave it empty to use the one on this machine.',
    });
  }
  const ffmpeg =
    (await tryTool(await onPath('ffmpeg'), 'path')) ?? (await tryTool(bundledFfmpeg(), 'bundled'));
  if (ffmpeg) return ok({ ffmpeg, ffprobe });
  return fail({
    code: 'film-tool-missing',
    message: 'No ffmpeg was found on this machine.',
    next: 'Install ffmpeg, or name one in TAPEBOOK_FFMPEG.',
  });
}
