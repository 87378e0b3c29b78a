import { changeOfVersion, type VersionChange } from '../../tendencies/drift/change-of-version.js';
import { periodsOfGames, type Periods } from '../../tendencies/drift/periods.js';
import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { callWords } from '../../tendencies/words/call-verbs.js';
import { versionChangeWords } from '../../tendencies/words/drift-words.js';
import { DRIFTING } from './drifting-dimensions.js';
import { habitTopic, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';

/** Chance of any false verdict; dozens of shares are judged one by one, so each gets its part of it (Bonferroni). */
const FALSE_VERDICT = 0.05;
/** Of each share whether the field moved, and whether the player moved beyond it. */
const JUDGEMENTS = 2;

/**
 * Who changed when the rules did.
 *
 * @param order         - places of the player's charts, in the order in which the games were played
 * @param versions      - rules of each of the player's charts, by place; null where not noted
 * @param fieldVersions - of each of the field's charts
 */
export function versionTopic(
  source: HabitSource,
  order: readonly number[],
  versions: readonly (string | null)[],
  fieldVersions: readonly (string | null)[],
): HabitTopic {
  const { side, asked } = source;
  const noted = order.flatMap((place) => versions[place] ?? []);
  const newest = noted.at(-1);
  if (newest === undefined || noted.every((version) => version === newest)) {
    const rules = newest === undefined ? 'the rules of no game are noted' : `all games under rules ${newest}`;
    return habitTopic(
      source,
      'rulesVersion',
      `${rules}: no change of rules to look across`,
      [],
      'nothing to compare with',
    );
  }
  if (asked.field === null) {
    return habitTopic(
      source,
      'rulesVersion',
      'no field to tell the rules from the player',
      [],
      'nothing to compare with',
    );
  }
  const own = periodsOf(asked.facts, versions, newest);
  const field = periodsOf(asked.field.facts, fieldVersions, newest);
  const judge = (confidence: number): VersionChange[] =>
    changeOfVersion({ ...asked, confidence }, DRIFTING[side], own, field);
  const told = judge(asked.confidence);
  const findings = judge(1 - FALSE_VERDICT / Math.max(1, JUDGEMENTS * told.length))
    .map(({ verdict }, place) => ({ change: told[place], verdict }))
    .flatMap(({ change, verdict }): HabitFinding[] =>
      change === undefined || verdict === 'not settled' ? [] : [findingOf({ ...change, verdict })],
    );
  const looked = `rules ${newest} against earlier ones, ${told.length} shares looked at`;
  return habitTopic(
    source,
    'rulesVersion',
    findings.length === 0 ? `${looked}: no change that can be told from chance` : looked,
    findings,
    told.length === 0 ? 'too little film' : 'not found',
  );
}

function periodsOf({ plays, ...facts }: TendencyPlays, versions: readonly (string | null)[], newest: string): Periods {
  const places = plays.charts.map((_, place) => place);
  return periodsOfGames(
    { ...facts, plays },
    places.filter((place) => (versions[place] ?? newest) !== newest),
    places.filter((place) => versions[place] === newest),
  );
}

function findingOf(change: VersionChange): HabitFinding {
  const { dimension, value, recent } = change;
  return {
    count: recent.count,
    known: recent.known,
    field: recent.field,
    evidence: recent.evidence,
    key: [dimension, value.key],
    label: `${callWords(dimension, value.label)} under the newest rules`,
    words: versionChangeWords(change, 'scout'),
    status: 'established',
  };
}
