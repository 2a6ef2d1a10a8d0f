/** A count of frames as a time code, 01:02:03:04; drop frame leaves out numbers at 29.97 and 59.94, written with a ; (SMPTE 12M). */
export function timecodeOf(count: number, framesPerSecond: number, dropFrame: boolean): string {
  let frames = count;
  if (dropFrame) {
    const left = framesPerSecond / 15;
    const perTen = framesPerSecond * 600 - left * 9;
    const rest = frames % perTen;
    const minutes = rest < left ? 0 : Math.floor((rest - left) / (framesPerSecond * 60 - left));
    frames += left * (9 * Math.floor(frames / perTen) + minutes);
  }
  const seconds = Math.floor(frames / framesPerSecond);
  const two = (value: number) => String(value).padStart(2, '0');
  const clock = [Math.floor(seconds / 3600) % 24, Math.floor(seconds / 60) % 60, seconds % 60].map(two);
  return `${clock.join(':')}${dropFrame ? ';' : ':'}${two(frames % framesPerSecond)}`;
}
