/** Prints one measurement: what, how much, its goal. The runner reads these lines. */
export function record(what: string, value: number, goal: number, unit: string): void {
  console.log(JSON.stringify({ what, value: Number(value.toFixed(3)), goal, unit }));
}
