import { calledRun, hadTempo } from '../../tendencies/decisions/decision-answers.js';
import { BURN, HURRY, timeoutsOf, type DecisionSettings } from '../../tendencies/decisions/decisions.js';
import { snappedSooner, usualPace } from '../../tendencies/decisions/pace.js';
import {
  byClassification,
  partitionedShares,
  wholeShare,
  type AnswersOf,
} from '../../tendencies/decisions/partitions.js';
import { snapsAndGames } from '../../tendencies/words/rests-on-words.js';
import { anyOf, counted } from '../../tendencies/words/count-words.js';
import { Evidence } from '../../tendencies/evidence.js';
import { decidedFinding, FEWEST_OF_A_PART, partsOf, type DecidedPart } from './decided-findings.js';
import { foundNothingOn, habitTopic, type HabitFinding, type HabitSource, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { offTheField } from './off-the-field.js';

type Clock = DecisionSettings['clock'];

/** Neither lead nor clock presses there: the profile tells of it. */
const UNPRESSED = 'normal';
/** Where a lead is run home or a deficit is thrown away, the usual share is worth a line by itself. */
const LATE = new Set(['two-minute trailing', 'four-minute ahead']);
/** A half that ends with this many has timeouts that were never used. A choice, no source. */
const UNUSED = 2;

/** Runs and tempo when clock and score press, and how fast the side comes to the snap. */
export function clockTopic(source: HeldSource, clock: Clock): HabitTopic {
  const { asked } = source;
  const { vocabulary } = asked;
  const usual = usualPace(asked.field, asked.player);
  const answers = {
    runs: calledRun,
    hurry: (facts) => hadTempo(facts, vocabulary, HURRY),
    burn: (facts) => hadTempo(facts, vocabulary, BURN),
    sooner: (facts) => snappedSooner(facts, usual),
  } as const satisfies Record<string, AnswersOf>;
  const parts = (['runs', 'hurry', 'burn', 'sooner'] as const).flatMap((name) => [
    // Of all snaps the profile tells runs; it does not tell the pace.
    ...(name === 'runs' ? [] : [{ name, part: null, share: wholeShare(asked, answers[name]) }]),
    ...partsOf(name, partitionedShares(asked, answers[name], [byClassification('clock', clock)])).filter(
      ({ part }) => part?.part !== UNPRESSED,
    ),
  ]);
  const standing = offTheField(source, parts, ({ share }) => share, 'both');
  const usualOnes = parts.filter(
    ({ name, part, share }) =>
      share.count > 0 && share.known >= FEWEST_OF_A_PART && (part === null || (name === 'runs' && LATE.has(part.part))),
  );
  const { snaps } = snapsAndGames(asked.facts);
  const known = (name: DecidedPart['name']): number =>
    parts.find((one) => one.name === name && one.part === null)?.share.known ?? 0;
  const pace =
    usual === null
      ? 'the time from snap to snap is not told, since no other player has a charted clock'
      : `time from snap to snap, by a clock known to run, on ${known('sooner')}; the field usually takes ${usual.seconds} seconds (${counted(usual.known, 'snap')})`;
  return habitTopic(
    source,
    'clock',
    `of ${counted(snaps, 'snap')} the tempo is charted on ${known('hurry')}; ${pace}`,
    [...new Set([...standing, ...usualOnes])].map((part) => decidedFinding(part, standing.includes(part))),
    known('hurry') + known('sooner') === 0 ? 'not charted' : foundNothingOn(known('hurry') + known('sooner')),
  );
}

/** When timeouts are used, and how many are left lying. */
export function timeoutsTopic(source: HeldSource, clock: Clock): HabitTopic {
  const { side, asked } = source;
  const { used, inTheDuel, kept } = timeoutsOf(side, asked, clock);
  const { snaps } = snapsAndGames(asked.facts);
  if (used.all.known === 0 && inTheDuel.known === 0 && kept.length === 0) {
    return habitTopic(source, 'timeouts', `not charted on ${anyOf(snaps, 'snap')}`, [], 'not charted');
  }
  const parts = partsOf('timeoutUsed', used.by);
  const standing = offTheField(source, parts, ({ share }) => share, 'both');
  const whole: DecidedPart[] = [
    { name: 'timeoutUsed', part: null, share: used.all },
    { name: 'timeoutInTheDuel', part: null, share: inTheDuel },
  ];
  const halves = parts.filter(({ part }) => part?.partition === 'half');
  const told = [...standing, ...[...whole, ...halves].filter(({ share }) => share.count > 0)];
  const findings = [...new Set(told)].map((part) => decidedFinding(part, standing.includes(part)));
  const note = [
    `timeouts known before and at ${counted(used.all.known, 'play')}`,
    ...(used.all.known > 0 && used.all.count === 0 ? ['none was seen to be used there'] : []),
    ...(inTheDuel.known === 0 ? ['not charted in the duel'] : []),
  ].join('; ');
  return habitTopic(
    source,
    'timeouts',
    note,
    [...unusedFinding(source, kept), ...findings],
    foundNothingOn(used.all.known + inTheDuel.known),
  );
}

function unusedFinding({ asked }: HabitSource, kept: ReturnType<typeof timeoutsOf>['kept']): HabitFinding[] {
  const unused = new Set(kept.filter(({ left }) => left >= UNUSED).map(({ play }) => play));
  if (unused.size === 0) return [];
  const label = `${UNUSED} or 3 timeouts left at the last charted play of a half`;
  return [
    {
      key: ['unused'],
      label,
      words: `${label}: ${unused.size} of ${kept.length} ${kept.length === 1 ? 'half' : 'halves'}`,
      count: unused.size,
      known: kept.length,
      evidence: new Evidence(asked.facts.plays, Int32Array.from(unused).sort(), () => true),
      status: 'counted',
    },
  ];
}
