import { columnsFromPlays, type ChartedPlay, type PlayValue } from '../charting/play-columns.js';
import { PLAY_FIELDS, type PlayField } from '../charting/play-fields.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { STARTER_TERMS } from '../charting/starter-vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../tendencies/classify-plays.js';
import { forecastSnaps, type ForecastSnaps } from './forecast-snaps.js';
import { readSeenPart, seenParts } from './frozen/seen-parts.js';
import { forecastInputs } from './model/forecast-inputs.js';
import { fieldOfTarget, FORECAST_TARGETS, SIGHTS, visibleFields, type ForecastTarget, type Sight } from './targets.js';

/** Two different values of a field, both legal. */
function twoValues(field: PlayField): readonly [PlayValue, PlayValue] {
  switch (field.type) {
    case 'number':
      return [field.minimum, Math.min(field.maximum, field.minimum + 2)];
    case 'choice':
      return [0, 1];
    case 'term':
    case 'terms': {
      const ids = STARTER_TERMS.flatMap(({ kind }, at) => (kind === field.kind ? [at + 1] : []));
      const [first = 1, second = 2] = ids;
      return field.type === 'term' ? [first, second] : [[first], [second, first]];
    }
  }
}

const PLAYS = 12;
const ASKED = 6;

const SNAPS = new Map<string, ForecastSnaps>();

/** A game whose asked play has this value in this field; everything else has the first value. */
function snapsWith(changed: string, value: PlayValue): ForecastSnaps {
  const key = `${changed} ${JSON.stringify(value)}`;
  const made = SNAPS.get(key);
  if (made !== undefined) return made;
  const plays = Array.from({ length: PLAYS }, (_, at): ChartedPlay => {
    const values = PLAY_FIELDS.map((field) => {
      if (field.name === 'playType') return 0;
      return at === ASKED && field.name === changed ? value : twoValues(field)[0];
    });
    return { playNumber: at + 1, orderInGame: at + 1, offenseIsHome: true, values };
  });
  const columns = columnsFromPlays({ chartId: 'chart', gameId: 'game' }, plays);
  const [game, offense] = [new Int32Array(PLAYS), new Int32Array(PLAYS)];
  const defense = new Int32Array(PLAYS).fill(1);
  const snaps = forecastSnaps(columns, starterVocabulary(), { game, round: game, offense, defense });
  SNAPS.set(key, snaps);
  return snaps;
}

/** What a forecast of the asked play is made from. */
function inputsWith(target: ForecastTarget, sight: Sight, changed: string, value: PlayValue): string[] {
  const inputs = forecastInputs(snapsWith(changed, value), target, sight);
  return [
    ...inputs.columns.map(({ name, values }) => `${name} ${values[ASKED]}`),
    ...Object.entries(inputs.keys).map(([name, keys]) => `${name} ${String(keys[ASKED])}`),
  ];
}

describe.each(FORECAST_TARGETS.flatMap((target) => SIGHTS.map((sight) => ({ target, sight }))))(
  'a forecast of $target from the $sight',
  ({ target, sight }) => {
    const visible = visibleFields(target, sight);
    const plain = inputsWith(target, sight, '', null);

    it('does not see any other field of the play itself', () => {
      for (const field of PLAY_FIELDS) {
        if (visible.has(field.name) || field.name === 'playType') continue;
        for (const value of [twoValues(field)[1], null]) {
          expect([field.name, inputsWith(target, sight, field.name, value)]).toEqual([field.name, plain]);
        }
      }
    });

    it('sees no field of the call, of the result, nor the target', () => {
      const late = PLAY_FIELDS.filter(({ knownAt }) => knownAt === 'snap' || knownAt === 'after');
      for (const { name } of late) expect(visible.has(name)).toBe(false);
      expect(visible.has(fieldOfTarget(target))).toBe(false);
    });
  },
);

/** What a frozen forecast reads of the asked play. */
function partsWith(target: ForecastTarget, changed: string, value: PlayValue): string[] {
  const { plays, vocabulary } = snapsWith(changed, value);
  const facts = classifyPlays(plays, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
  return seenParts(target).map((part) => {
    const { codes, values } = readSeenPart(part, facts, vocabulary);
    return `${part} ${values[codes[ASKED] ?? -1]?.key ?? 'not known'}`;
  });
}

describe.each(FORECAST_TARGETS)('a frozen forecast of %s', (target) => {
  it('reads no field of the play itself that shows only with the call or after it', () => {
    const visible = visibleFields(target, 'line');
    const plain = partsWith(target, '', null);
    for (const field of PLAY_FIELDS) {
      if (visible.has(field.name)) continue;
      for (const value of [twoValues(field)[1], null]) {
        expect([field.name, partsWith(target, field.name, value)]).toEqual([field.name, plain]);
      }
    }
    expect(seenParts(target)).not.toContain(fieldOfTarget(target));
  });

  it('reads what shows', () => {
    const [cue = 'tempo'] = seenParts(target).slice(2);
    const field = PLAY_FIELDS.find(({ name }) => name === cue);
    if (field === undefined) throw new Error(`no field ${cue}`);
    expect(partsWith(target, cue, twoValues(field)[1])).not.toEqual(partsWith(target, '', null));
  });
});

it('a forecast at the line sees what shows there', () => {
  // Without this the test above would pass on inputs that hold nothing at all.
  const plain = inputsWith('run-pass', 'line', '', null);
  const seen = PLAY_FIELDS.filter(
    ({ name }) =>
      visibleFields('run-pass', 'line').has(name) &&
      !['playType', 'lineUpSecond', 'drive', 'clockSeconds'].includes(name),
  );
  for (const field of seen) {
    expect([field.name, inputsWith('run-pass', 'line', field.name, twoValues(field)[1])]).not.toEqual([
      field.name,
      plain,
    ]);
  }
});
