import type { TeamName } from '../rosters.ts';

export const COLORS = {
  turfLight: '#4c8a46',
  turfDark: '#457f40',
  surround: '#39473f',
  border: '#e9ece6',
  line: '#f2f4ee',
  post: '#f3cf3a',
  ball: '#8b4513',
  ballEdge: '#fff3df',
  shadow: 'rgba(10, 25, 12, 0.38)',
  skin: '#a9764f',
  marker: '#f08a1d',
} as const;

export interface Kit {
  readonly jersey: string;
  readonly numbers: string;
  readonly pants: string;
  readonly helmet: string;
  readonly endZone: string;
}

/** Blue and orange: apart for every kind of colour sight, and apart from the turf. */
export const KITS: Readonly<Record<TeamName, Kit>> = {
  Herons: { jersey: '#1c3f94', numbers: '#ffffff', pants: '#d5d9de', helmet: '#15306f', endZone: '#274f8f' },
  Mariners: {
    jersey: '#e8641b',
    numbers: '#1a1a1a',
    pants: '#26262a',
    helmet: '#f4f4f2',
    endZone: '#b5521f',
  },
};
