/** The question that a table's cell answers: the room's question, narrowed to the row's and the column's value. */

import { both, EVERY_PLAY, type Question } from '../../../../football/question/ast.ts';
import type { TableKey } from './table-layout.ts';

export interface CellSide {
  readonly field: string;
  readonly key: TableKey;
  /** whether the key stands for a whole family */
  readonly family: boolean;
  readonly isTerm: boolean;
}

export function cellQuestion(question: Question, sides: readonly CellSide[]): Question {
  return sides.reduce((narrowed, side) => both(narrowed, sideQuestion(side)), both(question, EVERY_PLAY));
}

function sideQuestion(side: CellSide): Question {
  const { field, key } = side;
  if (key === null) return { kind: 'rule', field, operator: 'isNull' };
  const operator = side.isTerm && !side.family ? 'exactly' : '=';
  return { kind: 'rule', field, operator, value: key };
}
