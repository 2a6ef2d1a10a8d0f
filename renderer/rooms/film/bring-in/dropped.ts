/** What was dropped on the room: sheets by their ending, all else is film or a folder of it. */
export function sortDropped(paths: readonly string[]): { films: string[]; sheets: string[] } {
  const isSheet = (path: string) => /\.(csv|tsv|xlsx)$/i.test(path);
  return {
    films: paths.filter((path) => !isSheet(path)),
    sheets: paths.filter(isSheet),
  };
}
