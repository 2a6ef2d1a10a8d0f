import { cruise } from 'dependency-cruiser';
import extractConfig from 'dependency-cruiser/config-utl/extract-depcruise-options';
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config';

/** The import rule of the house. Counts what it looked at, because a tool that reads no module also finds no fault. */
const FOLDERS = ['football', 'db', 'electron', 'renderer'];
const options = await extractConfig('./.dependency-cruiser.cjs');
const { output } = await cruise(FOLDERS, options, null, { tsConfig: extractTSConfig('./tsconfig.json') });
const seen = Object.fromEntries(
  FOLDERS.map((folder) => [folder, output.modules.filter((m) => m.source.startsWith(`${folder}/`)).length]),
);
const blind = FOLDERS.filter((folder) => seen[folder] < 3);
for (const folder of blind) console.error(`The import rule saw only ${seen[folder]} modules of ${folder}/.`);
for (const { rule, from, to } of output.summary.violations) console.error(`${rule.name}: ${from} -> ${to}`);
const faults = output.summary.violations.length + blind.length;
console.log(`Import rule: ${output.summary.totalCruised} modules, ${faults} faults.`);
process.exit(faults ? 1 : 0);
