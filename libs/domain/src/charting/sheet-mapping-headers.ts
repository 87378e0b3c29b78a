import { squeezeHeader, targetOf, type SheetColumn } from './sheet-mapping.js';

/** What a column may be, without its header. */
export type ColumnUse = Omit<SheetColumn, 'header'>;

/** Headers that people write for fields, beside the field's own name. Common practice, no source. */
const WRITTEN: readonly (readonly [use: ColumnUse, headers: readonly string[]])[] = [
  [{ to: 'game' }, ['game id', 'game reference', 'game name', 'match']],
  [{ to: 'order' }, ['no', 'no.', 'number', 'nr', 'play number', 'play no', 'snap number', 'row', 'index']],
  [
    { to: 'offense' },
    [
      'possession',
      'ball',
      'has the ball',
      'side',
      'player',
      'offensive player',
      'offense player',
      'offensive team',
      'offense team',
      'team',
      'us or them',
    ],
  ],
  [{ to: 'note' }, ['notes', 'comment', 'comments', 'remarks', 'coaching point']],
  [{ to: 'playType' }, ['kind of play', 'snap type']],
  [{ to: 'quarter', read: 'first number' }, ['qtr', 'q', 'quarter', 'period']],
  [
    { to: 'clockSeconds' },
    ['clock', 'time', 'time left', 'game clock', 'clock left', 'seconds left', 'quarter seconds left'],
  ],
  [
    { to: 'scoreDifference' },
    ['score', 'margin', 'lead', 'score diff', 'score differential', 'point difference', 'score margin'],
  ],
  [{ to: 'down', read: 'first number' }, ['dn', 'down']],
  [{ to: 'distance', read: 'first number' }, ['dist', 'to go', 'yards to go', 'distance']],
  [{ read: 'down and distance' }, ['down and distance', 'd and d', 'down & distance', 'situation']],
  [
    { to: 'yardsToGoal' },
    ['spot', 'ball on', 'yard line', 'field position', 'yards to the goal', 'yards from goal', 'goal distance'],
  ],
  [{ to: 'hash' }, ['hash mark', 'lateral spot']],
  [{ to: 'drive', read: 'first number' }, ['series', 'possession number', 'drive number']],
  [{ to: 'offensivePersonnel' }, ['personnel', 'people', 'grouping', 'offense people']],
  [{ to: 'defensivePersonnel' }, ['defense people', 'defense personnel', 'package']],
  [{ to: 'formation' }, ['form', 'set', 'look', 'offense formation', 'offensive formation', 'alignment']],
  [{ to: 'strength' }, ['strong side', 'formation strength']],
  [{ to: 'backfield' }, ['backs', 'backfield set', 'quarterback place']],
  [{ to: 'motion' }, ['motions', 'pre-snap motion', 'shift']],
  [{ to: 'front' }, ['defensive front', 'line look']],
  [{ to: 'shell' }, ['safeties', 'shell shown', 'pre-snap coverage']],
  [{ to: 'coverage' }, ['cov', 'cover', 'pass coverage', 'coverage played']],
  [{ to: 'pressure' }, ['blitz', 'rush', 'pressure called']],
  [{ to: 'callFamily' }, ['family', 'call type', 'type of call']],
  [{ to: 'called' }, ['run or pass', 'run pass', 'run or pass called', 'run pass called', 'pass or run']],
  [{ to: 'concept' }, ['play', 'call', 'play call', 'play name']],
  [{ to: 'snapResult' }, ['result', 'outcome', 'what happened']],
  [{ to: 'yardsGained', read: 'first number' }, ['gain', 'yards', 'yds', 'gained', 'net yards']],
  [{ to: 'snapSecond' }, ['film', 'video', 'film second', 'video time', 'timestamp']],
];

const USES: ReadonlyMap<string, ColumnUse> = new Map(
  WRITTEN.flatMap(([use, headers]) => headers.map((header) => [squeezeHeader(header), use] as const)),
);

/** What a header alone says; null where it says nothing that is known. */
export function useByHeader(header: string): ColumnUse | null {
  if (header.trim() === '#') return { to: 'order' };
  const known = USES.get(squeezeHeader(header));
  if (known !== undefined) return known;
  const own = targetOf(header);
  return own === null ? null : { to: own };
}
