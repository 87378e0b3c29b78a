import type { MenuCall } from '../../answers/options.js';
import {
  manualDefender,
  type ActionOpening,
  type ManualDefender,
  type ManualDefenderSituation,
} from '../../tendencies/manual-defender/manual-defender.js';
import { ownCallsInto } from '../../tendencies/manual-defender/own-calls-into.js';
import type { ValueCount } from '../../tendencies/decisions/value-counts.js';
import { ALL_SNAPS } from '../../tendencies/situation-keys.js';
import { anyOf, counted, FEWEST_FOR_PERCENT } from '../../tendencies/words/count-words.js';
import { controlledDefenderWords, openingWords, ownCallIntoWords } from '../../tendencies/words/defense-words.js';
import { foundNothingOn, habitTopic, ofShare, type HabitFinding, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { offTheField } from './off-the-field.js';

type Of = 'starts' | 'acts';

interface Placed {
  readonly at: ManualDefenderSituation;
  readonly of: Of;
  readonly value: ValueCount;
}

const MOST_PLACED = 4;
const MOST_OPENINGS = 2;
const MOST_OWN_CALLS = 2;
/** What is done less often than one time in three is no usual place, and three throws open nothing. Choices, no source. */
const USUAL = 1 / 3;
const FEWEST_THROWS = 5;

/** Where the defender that is controlled by hand starts, what it does, and what that opens. */
export function manualDefenderTopic(source: HeldSource, menu: readonly MenuCall[]): HabitTopic {
  const found = manualDefender(source.asked);
  const all = found.situations.find(({ situation }) => situation === ALL_SNAPS);
  const [starts, acts] = [all?.starts[0]?.share.known ?? 0, all?.actions[0]?.share.known ?? 0];
  const snaps = all?.snaps ?? 0;
  if (starts + acts === 0) {
    const none = `not seen on ${anyOf(snaps, 'snap')} of this film`;
    return habitTopic(source, 'manualDefender', none, [], 'not charted');
  }
  const note = `of ${counted(snaps, 'snap')} its start was seen on ${starts}, what it did on ${acts}`;
  const findings = [
    ...placedFindings(source, found, all),
    ...found.openings
      .filter(({ hits }) => hits.known >= FEWEST_THROWS && hits.count > 0)
      .slice(0, MOST_OPENINGS)
      .map((opening) => openingFinding(source, opening, menu)),
  ];
  return habitTopic(source, 'manualDefender', note, findings, foundNothingOn(starts + acts));
}

/** What differs from the field, then what is done most over all snaps. */
function placedFindings(
  source: HeldSource,
  { situations }: ManualDefender,
  all: ManualDefenderSituation | undefined,
): HabitFinding[] {
  const placed = situations.flatMap((at): Placed[] => [
    ...at.starts.map((value): Placed => ({ at, of: 'starts', value })),
    ...at.actions.map((value): Placed => ({ at, of: 'acts', value })),
  ]);
  const standing = offTheField(source, placed, ({ value }) => value.share, 'more');
  const usual = (['starts', 'acts'] as const).flatMap((of) =>
    placed
      .filter((one) => one.at === all && one.of === of)
      .slice(0, 1)
      .filter(({ value: { share } }) => share.known >= FEWEST_FOR_PERCENT && share.count >= USUAL * share.known),
  );
  const shown = [...new Set([...standing.slice(0, MOST_PLACED), ...usual])].slice(0, MOST_PLACED);
  return shown.map((one) => {
    const { at, of, value } = one;
    return {
      ...ofShare(value.share),
      key: [at.situation, of, value.value.key],
      label: `controlled defender ${of === 'starts' ? 'starts as' : 'then'} ${value.value.label}, ${at.situation}`,
      words: controlledDefenderWords(at.situation, of, value, at.snaps, 'scout'),
      status: standing.includes(one) ? 'established' : 'counted',
    };
  });
}

function openingFinding({ asked }: HeldSource, opening: ActionOpening, menu: readonly MenuCall[]): HabitFinding {
  const { action, area, hits } = opening;
  const { facts, field, vocabulary } = asked;
  const ours = ownCallsInto(field?.facts ?? facts, vocabulary, area, menu)
    .slice(0, MOST_OWN_CALLS)
    .map((into) => ownCallIntoWords(into, vocabulary.byId(into.call.conceptId ?? -1)?.name ?? ''));
  return {
    ...ofShare(hits),
    key: ['opening', action.key],
    label: `throws to the ${area.name} when the controlled defender: ${action.label}`,
    words: [openingWords(opening, 'scout'), ...ours.map((words) => `of ours ${words}`)].join('; '),
    status: 'counted',
  };
}
