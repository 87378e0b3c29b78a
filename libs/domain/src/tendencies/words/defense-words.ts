import type { CountedShare } from '../decisions/counted-share.js';
import type { OwnCallInto } from '../manual-defender/own-calls-into.js';
import type { ValueCount } from '../decisions/value-counts.js';
import type { Disguise, ShellCoverage } from '../disguise/disguise.js';
import type { ActionOpening, StartAndAction } from '../manual-defender/manual-defender.js';
import type { VisibilityWarning } from '../profile-shape.js';
import { knownNotes, ordinal, shareWords, successNotes, withCounts, wordedShare } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/** `the shell lied 6 of 21, 15-47 %, field 20 %; known on 21 of 60`. */
export function disguiseWords({ disguised, snaps }: Pick<Disguise, 'disguised' | 'snaps'>, voice: Voice): string {
  return lied('the shell', disguised, knownNotes(disguised.known, snaps), voice);
}

export function shellWords(shell: string, disguised: CountedShare, voice: Voice): string {
  return lied(`shell ${shell}`, disguised, [], voice);
}

export function downWords(down: number, disguised: CountedShare, voice: Voice): string {
  return lied(`the shell on ${ordinal(down)} down`, disguised, [], voice);
}

function lied(what: string, share: CountedShare, notes: readonly string[], voice: Voice): string {
  const words = share.known === 0 ? 'not known on any snap' : shareWords(wordedShare(share));
  return sentence({ scout: `${what} lied ${words}`, self: `lie with ${what} ${words}`, notes }, voice);
}

/** `two high shown, cover 3 played: 4 of 21, disguised`. */
export function shellCoverageWords({ shell, coverage, count, disguised }: ShellCoverage, known: number): string {
  const verdict = disguised === 1 ? 'disguised' : disguised === 0 ? 'as announced' : 'neither announced nor hidden';
  return `${shell.label} shown, ${coverage.label} played: ${count} of ${known}, ${verdict}`;
}

/** `still moving at the snap 3 of 40`. */
export function lateWords(what: 'still moving at the snap' | 'disguise moved late', share: CountedShare): string {
  return share.known === 0 ? `${what}: not known on any snap` : `${what} ${shareWords(wordedShare(share))}`;
}

/** That what was seen goes with how plays ended. */
export function visibilityWords(warning: VisibilityWarning): string {
  const { knownOnSuccesses, successes, knownOnFailures, failures } = warning;
  return (
    `seen on ${knownOnSuccesses} of ${successes} plays that succeeded and on ${knownOnFailures} of ${failures} that ` +
    'failed: what was seen depends on how it ended, so the share may mislead'
  );
}

/** `all snaps: the controlled defender starts as linebacker 8 of 20, 24-58 %, field 30 %; known on 20 of 60`. */
export function controlledDefenderWords(
  situation: string,
  of: 'starts' | 'acts',
  { value, share }: ValueCount,
  snaps: number,
  voice: Voice,
): string {
  const words = shareWords(wordedShare(share));
  const what = of === 'starts' ? 'starts as' : 'then';
  return sentence(
    {
      scout: `${situation}: the controlled defender ${what} ${value.label} ${words}`,
      self: `${of === 'starts' ? 'start by hand as' : 'by hand then'} ${value.label} ${words}, ${situation}`,
      notes: knownNotes(share.known, snaps),
    },
    voice,
  );
}

/** `from linebacker, rushes: 4 of 17`. */
export function startAndActionWords({ start, action, count }: StartAndAction, known: number): string {
  return `from ${start.label}, ${action.label}: ${count} of ${known}`;
}

/** `rushes leaves the short middle: thrown there 3 of 7; succeeded there 2 of 3, elsewhere 1 of 4; by mesh 2, stick 1`. */
export function openingWords(
  { action, area, hits, whenHit, elsewhere, concepts }: ActionOpening,
  voice: Voice,
): string {
  const words = hits.known === 0 ? 'not seen on this film' : `thrown there ${shareWords(wordedShare(hits))}`;
  const notes =
    hits.known === 0
      ? []
      : [
          ...successNotes([
            ['there', whenHit],
            ['elsewhere', elsewhere],
          ]),
          ...(concepts.length === 0 ? [] : [`by ${concepts.map(conceptWords).join(', ')}`]),
        ];
  return sentence(
    {
      scout: `${action.label} leaves the ${area.name}: ${words}`,
      self: `leave the ${area.name} when your controlled defender ${action.label}: ${words}`,
      notes,
    },
    voice,
  );
}

/** `thrown to the short middle 3 of 7`. */
export function hitWords(area: string, hits: CountedShare): string {
  return hits.known === 0 ? 'not seen on this film' : `thrown to the ${area} ${shareWords(wordedShare(hits))}`;
}

/** `mesh 2 of 3`. */
export function conceptWords({ value, share }: ValueCount): string {
  return withCounts(value.label, shareWords(wordedShare(share)));
}

/** `Broom Closet (mesh): thrown there 9 of 31 by anybody, succeeded 6 of 9; not rehearsed`. */
export function ownCallIntoWords({ call, hits, known, trials, successes }: OwnCallInto, concept: string): string {
  const notes = call.rehearsed ? [] : ['not rehearsed'];
  const came = `${call.name} (${concept}): thrown there ${hits} of ${known} by anybody, succeeded ${successes} of ${trials}`;
  return [came, ...notes].join('; ');
}
