import { describe, expect, it } from 'vitest';
import { printQuestion } from '../../../../football/question/print.ts';
import { boxWords, playerPlays, teamPlays } from '../../../../renderer/rooms/film/box/box-questions.ts';

describe('a name in the box score', () => {
  it('asks for the plays of its own part of the box', () => {
    expect(printQuestion(playerPlays('Foxes', 'passing', '7 Marcus Ellery'))).toBe(
      "game = 'Foxes' AND passer = '7 Marcus Ellery'",
    );
    expect(printQuestion(playerPlays('Foxes', 'fumbles', '22'))).toBe(
      "game = 'Foxes' AND (fumbler = '22' OR carrier = '22')",
    );
  });

  it('asks for the plays on which the team had the ball', () => {
    expect(printQuestion(teamPlays("St. Orrin's", 'Herons'))).toBe(
      "game = 'St. Orrin''s' AND possession = 'Herons'",
    );
  });

  it('prints its headings in words', () => {
    expect(boxWords('thirdDownConversions')).toBe('third down conversions');
  });
});
