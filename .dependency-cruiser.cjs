/** Who may import whom: football <- db <- film, export <- service <- shell; the renderer knows football and the service's types. */
const may = (name, from, to) => ({
  name,
  severity: 'error',
  from: { path: from },
  to: { path: '^(football|db|electron|renderer|sample-clips|scripts|test)/', pathNot: to },
});

module.exports = {
  forbidden: [
    may('football-stands-alone', '^football/', '^football/'),
    may('db-knows-football', '^db/', '^(football|db)/'),
    may('film-knows-db', '^electron/film/', '^(football|db|electron/film)/'),
    may('export-knows-film', '^electron/export/', '^(football|db|electron/film|electron/export)/'),
    may(
      'service-knows-film-and-export',
      '^electron/service/',
      '^(football|db|electron/film|electron/export|electron/service)/|^sample-clips/sample-game\\.ts$',
    ),
    may('shell-is-thin', '^electron/shell/', '^electron/(shell|service)/'),
    may('renderer-knows-football', '^renderer/', '^(football|renderer)/|^electron/(service|shell)/'),
    {
      name: 'renderer-takes-types-only',
      severity: 'error',
      comment: 'the window talks to the service over HTTP; it may know its types and nothing else',
      from: { path: '^renderer/' },
      to: { path: '^electron/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'only-the-shell-knows-electron',
      severity: 'error',
      from: { pathNot: '^electron/shell/' },
      to: { path: 'node_modules/electron/' },
    },
    {
      name: 'football-does-no-io',
      severity: 'error',
      from: { path: '^football/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(dist|test)/' },
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.mjs', '.cjs', '.json'] },
  },
};
