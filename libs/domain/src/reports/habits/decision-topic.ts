import { faked, kickedOnside, triedForTwo, wentForIt } from '../../tendencies/decisions/decision-answers.js';
import type { CountedShare } from '../../tendencies/decisions/counted-share.js';
import { BY_SCORE, byDistance, byZone, partitionedShares, wholeShare } from '../../tendencies/decisions/partitions.js';
import type { SituationSettings } from '../../football/situations.js';
import { DECISION_WORDS, decisionWords, type DecisionName } from '../../tendencies/words/decision-words.js';
import { habitTopic, ofShare, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { offTheField } from './off-the-field.js';

interface Part {
  readonly partition: string;
  readonly part: string;
  readonly share: CountedShare;
}

/** Fourth downs seldom come; below this the whole says all that a part could. */
const FEWEST_OF_A_PART = 3;
const MOST_PARTS = 3;

/** Fourth downs with the distances at which they are gone for, and what is rare and must be reckoned with. */
export function decisionTopic(source: HabitSource, situations: SituationSettings): HabitTopic {
  const { asked } = source;
  const { vocabulary } = asked;
  const fourth = wholeShare(asked, (facts) => wentForIt(facts, vocabulary));
  const parts = partitionedShares(asked, (facts) => wentForIt(facts, vocabulary), [
    byDistance(situations),
    byZone(situations),
    BY_SCORE,
  ]).flatMap(({ partition, parts: of }) => of.map(({ part, share }): Part => ({ partition, part, share })));
  const standing = offTheField(parts, ({ share }) => share, 'both');
  const usual = parts.filter(
    ({ partition, share }) => partition === 'distance' && share.known >= FEWEST_OF_A_PART && share.count > 0,
  );
  const rare: readonly (readonly [DecisionName, CountedShare])[] = [
    ['twoPointTries', wholeShare(asked, triedForTwo)],
    ['onsideKicks', wholeShare(asked, (facts) => kickedOnside(facts, vocabulary))],
    ['fakes', wholeShare(asked, (facts) => faked(facts, vocabulary))],
  ];
  const findings = [
    ...(fourth.known === 0 ? [] : [whole('fourthDown', fourth)]),
    ...[...new Set([...standing, ...usual])].slice(0, MOST_PARTS).map((part): HabitFinding => ({
      ...ofShare(part.share),
      key: ['fourthDown', part.partition, part.part],
      label: `${DECISION_WORDS.fourthDown.scout}, ${part.partition} ${part.part}`,
      words: decisionWords('fourthDown', part.share, part, 'scout'),
      status: standing.includes(part) ? 'established' : 'counted',
    })),
    ...rare.filter(([, { count }]) => count > 0).map(([name, share]) => whole(name, share)),
  ];
  const never = rare.filter(([, { count, known }]) => count === 0 && known > 0);
  const note = [
    fourth.known === 0 ? 'no decision on fourth down was charted' : 'decisions that the chart shows',
    ...never.map(([name, { known }]) => `never ${DECISION_WORDS[name].scout}, ${known} seen`),
  ].join('; ');
  return habitTopic(source, 'decisions', note, findings);
}

function whole(name: DecisionName, share: CountedShare): HabitFinding {
  return {
    ...ofShare(share),
    key: [name],
    label: DECISION_WORDS[name].scout,
    words: decisionWords(name, share, null, 'scout'),
    status: 'counted',
  };
}
