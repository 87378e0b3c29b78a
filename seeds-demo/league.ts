/** Who plays in the demo world, and in what. Every name here is invented. */

export const OUR_CLAN = 'Night Shift Almanac';
export const ORGANIZER_CLAN = 'Kettle & Thimble Events';

/** The one of us whose next opponent this is all about, and that opponent. */
export const OUR_PLAYER = 'OxbowFold';
export const NEXT_OPPONENT = 'GraniteMuffin';

interface Player {
  readonly handle: string;
  readonly aliases: readonly string[];
}

export const PLAYERS: readonly Player[] = [
  { handle: OUR_PLAYER, aliases: ['oxbow'] },
  { handle: NEXT_OPPONENT, aliases: ['granmuff', 'Granite M.'] },
  { handle: 'tumblegate', aliases: [] },
  { handle: 'PaperHeron', aliases: ['pheron'] },
  { handle: 'saltmarsh_9', aliases: ['saltmarsh'] },
  { handle: 'HollowReed77', aliases: ['hreed'] },
  { handle: 'CopperDrizzle', aliases: [] },
  { handle: 'rustlepine', aliases: ['rustle'] },
  { handle: 'wobblecrane', aliases: [] },
  { handle: 'SundialRook', aliases: ['sundial'] },
  { handle: 'drowsypiston', aliases: [] },
  { handle: 'lanternfish_k', aliases: ['lfk'] },
  { handle: 'OtterParade', aliases: [] },
  { handle: 'FoxgloveFive', aliases: ['fox5'] },
  { handle: 'TinKettle', aliases: [] },
  { handle: 'quietharrow', aliases: ['qharrow'] },
  { handle: 'puddleclock', aliases: [] },
  { handle: 'VelvetAnvil', aliases: ['vanvil'] },
  { handle: 'nightgravel', aliases: [] },
  { handle: 'brackenroll', aliases: [] },
  { handle: 'TwelveCandles', aliases: ['12candles'] },
  { handle: 'plumbline_q', aliases: [] },
  { handle: 'MossLantern', aliases: [] },
  { handle: 'gustwhistle', aliases: ['gusty'] },
];

export interface LeagueEvent {
  readonly number: number;
  readonly reference: string;
  /** How references of its games begin. */
  readonly short: string;
  readonly name: string;
  readonly startsOn: string;
  readonly endsOn: string;
  readonly rulesVersion: string;
  readonly status: 'running' | 'finished';
  /** Whether pools are played before the bracket. They decide who picks the ball first, not the seeds. */
  readonly pools: boolean;
  readonly quarterMinutes: number;
  readonly poolQuarterMinutes: number;
  /** Rounds from this one on are best of three. */
  readonly bestOfThreeFrom: number;
  /** Matches of this event that are over, as round and position; null when all are. */
  readonly finishedMatches: ReadonlySet<string> | null;
  /** Handles by seed, the first seed first. */
  readonly seeds: readonly string[];
  /** Played outside the bracket: first handle at home. */
  readonly scrimmages: readonly (readonly [string, string])[];
}

export const EVENTS: readonly LeagueEvent[] = [
  {
    number: 1,
    reference: 'copper-kettle-cup-2026',
    short: 'kettle',
    name: 'Copper Kettle Cup 2026',
    startsOn: '2026-02-06',
    endsOn: '2026-02-08',
    rulesVersion: '2026.1',
    status: 'finished',
    pools: true,
    quarterMinutes: 4,
    poolQuarterMinutes: 4,
    bestOfThreeFrom: 9,
    finishedMatches: null,
    seeds: [
      'quietharrow',
      'HollowReed77',
      'tumblegate',
      'SundialRook',
      'PaperHeron',
      NEXT_OPPONENT,
      OUR_PLAYER,
      'VelvetAnvil',
      'wobblecrane',
      'rustlepine',
      'OtterParade',
      'nightgravel',
      'CopperDrizzle',
      'saltmarsh_9',
      'FoxgloveFive',
      'puddleclock',
    ],
    scrimmages: [],
  },
  {
    number: 2,
    reference: 'thimble-open-2026',
    short: 'thimble',
    name: 'Thimble Open 2026',
    startsOn: '2026-04-17',
    endsOn: '2026-04-19',
    rulesVersion: '2026.1',
    status: 'finished',
    pools: true,
    quarterMinutes: 4,
    poolQuarterMinutes: 4,
    bestOfThreeFrom: 3,
    finishedMatches: null,
    seeds: [
      'HollowReed77',
      'tumblegate',
      'lanternfish_k',
      NEXT_OPPONENT,
      OUR_PLAYER,
      'SundialRook',
      'drowsypiston',
      'saltmarsh_9',
      'PaperHeron',
      'TinKettle',
      'rustlepine',
      'brackenroll',
      'TwelveCandles',
      'wobblecrane',
      'OtterParade',
      'MossLantern',
    ],
    scrimmages: [],
  },
  {
    number: 3,
    reference: 'weathervane-classic-2026',
    short: 'weathervane',
    name: 'Weathervane Classic 2026',
    startsOn: '2026-06-12',
    endsOn: '2026-06-14',
    rulesVersion: '2026.2',
    status: 'running',
    pools: false,
    quarterMinutes: 5,
    poolQuarterMinutes: 4,
    bestOfThreeFrom: 9,
    // The first round, and the upper half of the quarter-finals: ours is still to come.
    finishedMatches: new Set(['1.1', '1.2', '1.3', '1.4', '1.5', '1.6', '1.7', '1.8', '2.1', '2.2']),
    seeds: [
      'HollowReed77',
      'lanternfish_k',
      NEXT_OPPONENT,
      'tumblegate',
      'SundialRook',
      OUR_PLAYER,
      'CopperDrizzle',
      'drowsypiston',
      'PaperHeron',
      'plumbline_q',
      'rustlepine',
      'saltmarsh_9',
      'gustwhistle',
      'wobblecrane',
      'FoxgloveFive',
      'quietharrow',
    ],
    scrimmages: [
      [NEXT_OPPONENT, 'plumbline_q'],
      ['gustwhistle', 'CopperDrizzle'],
      [OUR_PLAYER, 'TinKettle'],
      ['drowsypiston', NEXT_OPPONENT],
      ['wobblecrane', 'lanternfish_k'],
      ['MossLantern', 'rustlepine'],
      ['plumbline_q', 'gustwhistle'],
      ['TwelveCandles', 'lanternfish_k'],
      ['SundialRook', 'brackenroll'],
      ['FoxgloveFive', 'drowsypiston'],
      ['nightgravel', 'MossLantern'],
    ],
  },
];

/** Seeds that meet in the first round, by position: the order in which seeds one and two can only meet at the end. */
export const FIRST_ROUND: readonly (readonly [number, number])[] = [
  [1, 16],
  [8, 9],
  [4, 13],
  [5, 12],
  [2, 15],
  [7, 10],
  [3, 14],
  [6, 11],
];

/** Results that the story needs; every other match is won by whoever wins it. */
export const STORY_WINNERS: Readonly<Record<string, string>> = {
  'weathervane-classic-2026 1.7': NEXT_OPPONENT,
  'weathervane-classic-2026 1.8': OUR_PLAYER,
};

/** This entrant did not appear: a match without a game. */
export const FORFEIT = { event: 'thimble-open-2026', match: '1.1', absent: 'MossLantern' };

/** Teams inside the simulation. */
export const SQUADS = [
  'Saltbridge Tinkers',
  'Cindervale Millers',
  'Marrowgate Ferrymen',
  'Fennmoor Beekeepers',
  'Quillhaven Clockmakers',
  'Ashwick Cartwrights',
  'Dunmere Weavers',
  'Ironwood Lamplighters',
] as const;

export interface Charter {
  readonly name: string;
  /** Factor on how often a field is filled in at all. */
  readonly diligence: number;
  readonly synonymShare: number;
  readonly slipShare: number;
  /** Whether this charter winds back on the call that spreads, to see what met it. */
  readonly windsBack: boolean;
}

export const CHARTERS = {
  pennyfold: { name: 'Pennyfold', diligence: 1, synonymShare: 0.06, slipShare: 0.01, windsBack: true },
  inkwell: { name: 'Inkwell', diligence: 0.85, synonymShare: 0.3, slipShare: 0.025, windsBack: true },
  marrowby: { name: 'Marrowby', diligence: 0.7, synonymShare: 0.15, slipShare: 0.03, windsBack: true },
  tallysheet: { name: 'Tallysheet', diligence: 0.9, synonymShare: 0.1, slipShare: 0.03, windsBack: false },
} as const satisfies Record<string, Charter>;
