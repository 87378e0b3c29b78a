import { faked, kickedOnside, triedForTwo, wentForIt } from '../../tendencies/decisions/decision-answers.js';
import type { CountedShare } from '../../tendencies/decisions/counted-share.js';
import { BY_SCORE, byDistance, byZone, partitionedShares, wholeShare } from '../../tendencies/decisions/partitions.js';
import type { SituationSettings } from '../../football/situations.js';
import { DECISION_WORDS, type DecisionName } from '../../tendencies/words/decision-words.js';
import { decidedFinding, FEWEST_OF_A_PART, partsOf } from './decided-findings.js';
import { foundNothingOn, habitTopic, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { offTheField } from './off-the-field.js';

const MOST_PARTS = 3;

/** Fourth downs with the distances at which they are gone for, and what is rare and must be reckoned with. */
export function decisionTopic(source: HeldSource, situations: SituationSettings): HabitTopic {
  const { asked } = source;
  const { vocabulary } = asked;
  const fourth = wholeShare(asked, (facts) => wentForIt(facts, vocabulary));
  const parts = partsOf(
    'fourthDown',
    partitionedShares(asked, (facts) => wentForIt(facts, vocabulary), [
      byDistance(situations),
      byZone(situations),
      BY_SCORE,
    ]),
  );
  const standing = offTheField(source, parts, ({ share }) => share, 'both');
  const usual = parts.filter(
    ({ part, share }) => part?.partition === 'distance' && share.known >= FEWEST_OF_A_PART && share.count > 0,
  );
  const rare: readonly (readonly [DecisionName, CountedShare])[] = [
    ['twoPointTries', wholeShare(asked, triedForTwo)],
    ['onsideKicks', wholeShare(asked, (facts) => kickedOnside(facts, vocabulary))],
    ['fakes', wholeShare(asked, (facts) => faked(facts, vocabulary))],
  ];
  const findings = [
    ...(fourth.known === 0 ? [] : [decidedFinding({ name: 'fourthDown', part: null, share: fourth }, false)]),
    ...[...new Set([...standing, ...usual])]
      .slice(0, MOST_PARTS)
      .map((part) => decidedFinding(part, standing.includes(part))),
    ...rare
      .filter(([, { count }]) => count > 0)
      .map(([name, share]) => decidedFinding({ name, part: null, share }, false)),
  ];
  const never = rare.filter(([, { count, known }]) => count === 0 && known > 0);
  const note = [
    fourth.known === 0 ? 'no decision on fourth down was charted' : 'decisions that the chart shows',
    ...never.map(([name, { known }]) => `never ${DECISION_WORDS[name].scout}, ${known} seen`),
  ].join('; ');
  return habitTopic(source, 'decisions', note, findings, foundNothingOn(fourth.known));
}
