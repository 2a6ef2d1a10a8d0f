/** The name of a field in questions and sheets, made of what the staff calls it: `Block type` is `blockType`. */
export function fieldKeyFor(label: string): string {
  const words = label
    .normalize('NFKD')
    // an accent is a sign of its own now, and no gap between words
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, ' ')
    .trim()
    .split(' ')
    .filter((word) => word !== '');
  const key = words
    .map((word, at) => (at === 0 ? word.toLowerCase() : word[0]!.toUpperCase() + word.slice(1).toLowerCase()))
    .join('')
    .slice(0, 40);
  return /^[a-z]/.test(key) ? key : '';
}
