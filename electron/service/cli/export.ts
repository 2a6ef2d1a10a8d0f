import { resolve } from 'node:path';
import type { Command } from 'commander';
import { ProblemError } from '../../../football/result.ts';
import { cutupByName } from '../actions/cutups.ts';
import { type ExportReport, estimateCutup, exportCutup } from '../film/export-cutup.ts';
import type { Angle, BurnChoice, ReelChoices, ReelEstimateView } from '../views.ts';
import { type CommonOptions, common, type Done, list, looking } from './common.ts';
import type { Exit } from './output.ts';

interface ExportOptions extends CommonOptions {
  readonly to: string;
  readonly angles?: string[];
  readonly quality?: string;
  readonly size?: string;
  readonly burn?: string[];
  readonly fields?: string[];
  readonly titleCard?: boolean;
}

const QUALITIES = ['small', 'standard', 'fine'] as const;
const SIZES = ['source', '1080', '720', '540'] as const;
const BURNT: readonly BurnChoice[] = ['tags', 'drawings'];

function oneOf<Word extends string>(option: string, word: string, words: readonly Word[]): Word {
  const found = words.find((each) => each === word);
  if (found) return found;
  throw new ProblemError({
    code: 'option-unfit',
    message: `${option} can't be ${word}.`,
    kept: 'Nothing was written.',
    next: `It takes ${words.join(', ')}.`,
  });
}

function choicesOf({ quality, size, burn, fields, titleCard }: ExportOptions): ReelChoices {
  return {
    ...(quality ? { quality: oneOf('--quality', quality, QUALITIES) } : {}),
    ...(size ? { size: oneOf('--size', size, SIZES) } : {}),
    ...(burn ? { burn: burn.map((word) => oneOf('--burn', word, BURNT)) } : {}),
    ...(fields ? { fields } : {}),
    ...(titleCard ? { titleCard } : {}),
  };
}

/** `about 38 s, 412 MB: 3 clips copied, 55 by their edges, 2 encoded (its picture is hevc, not H.264)` */
export function estimateLine({ makingSeconds, bytes, how, whyEncoded }: ReelEstimateView): string {
  const ways = [
    how.copied > 0 ? `${how.copied} copied` : '',
    how.edges > 0 ? `${how.edges} by their edges` : '',
    how.encoded > 0 ? `${how.encoded} encoded${whyEncoded ? ` (${whyEncoded})` : ''}` : '',
  ].filter((way) => way !== '');
  return `Takes about ${Math.ceil(makingSeconds)} s and ${Math.ceil(bytes / 1e6)} MB: ${ways.join(', ')}.`;
}

function reportLines(report: ExportReport): string[] {
  if (!('segments' in report)) return [`Wrote ${report.path}.`];
  const ways = (['copied', 'edges', 'encoded'] as const)
    .map((how) => ({ how, count: report.segments.filter((segment) => segment.how === how).length }))
    .filter(({ count }) => count > 0)
    .map(({ how, count }) => `${count} ${how === 'edges' ? 'by their edges' : how}`);
  return [
    `Wrote ${report.path}: ${report.frames} frames, ${Math.ceil(report.bytes / 1e6)} MB; ${ways.join(', ')}.`,
  ];
}

export function exportCommand(cutup: Command, done: Done): void {
  common(cutup.command('export').description('write a cut-up as a reel, a playlist, or a sheet of its plays'))
    .argument('<name>', 'its name')
    .requiredOption('--to <file>', 'a .mp4, .m3u8, .csv or .xlsx file')
    .option('--angles <angles>', 'which angles, in order', list)
    .option('--quality <quality>', 'of a reel: small, standard or fine')
    .option('--size <lines>', 'lines of the picture: source, 1080, 720 or 540')
    .option('--burn <what>', 'draw into the pictures: tags, drawings', list)
    .option('--fields <keys>', 'which fields the tags tell', list)
    .option('--title-card', 'put a card with the name in front')
    .action((name: string, options: ExportOptions) =>
      looking(options, done, async (station, output): Promise<Exit> => {
        const choices = choicesOf(options);
        const { cutupId } = cutupByName(station, name);
        const angles = (options.angles as Angle[] | undefined) ?? null;
        if (/\.(mp4|m3u8)$/i.test(options.to)) {
          output.say(estimateLine(await estimateCutup(station, { cutupId, angles, choices })));
        }
        let toldAt = 0;
        const report = await exportCutup(
          station,
          { cutupId, to: resolve(options.to), angles, choices },
          {
            progress: (part) => {
              if (!process.stderr.isTTY || Date.now() - toldAt < 500) return;
              toldAt = Date.now();
              output.say(`${Math.round(part * 100)} %`);
            },
          },
        );
        output.print(report, () => reportLines(report));
        if (choices.burn?.includes('drawings') && 'burnt' in report && report.burnt.drawings === 0) {
          output.say('There are no drawings on these clips yet.');
        }
        if ('without' in report && report.without.length > 0) {
          output.say(`No film of those angles: items ${report.without.join(', ')}.`);
          return 1;
        }
        return 0;
      }),
    );
}
