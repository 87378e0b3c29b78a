import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { DimensionName } from '#domain/tendencies/dimension-names.js';
import type { PlayReference } from '#domain/tendencies/evidence.js';
import type { Openers } from '#domain/tendencies/sequences/openers.js';
import type { OrderDependence } from '#domain/tendencies/sequences/order-dependence.js';
import type { Reaction } from '#domain/tendencies/sequences/reactions.js';
import type { RepeatHabit } from '#domain/tendencies/sequences/repeat-habits.js';
import {
  openerWords,
  orderWords,
  reactionWords,
  repeatWords,
  situationOrderWords,
} from '#domain/tendencies/words/sequence-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { count, interval, orNull, rounded, roundedP, value } from '../../common/figures.js';
import { playReference } from '../../common/play-reference.dto.js';
import { evidencedShare, valueCount } from '../../common/value-count.js';
import type { OpenersResponse, OrderResponse, ReactionResponse, RepeatResponse } from './sequences.dto.js';

/** What sequences are told with. */
export interface SequenceContext {
  readonly dimension: DimensionName;
  readonly plays: PlayColumns;
  readonly voice: Voice;
}

export function openersResponse(openers: Openers, snaps: number, context: SequenceContext): OpenersResponse {
  const { dimension, plays, voice } = context;
  const placeOf = placesOf(plays);
  return {
    of: openers.of,
    games: openers.games.map((game) => ({
      gameId: plays.charts[game.chartIndex]?.gameId ?? '',
      snaps: game.snaps.map((snap) => ({
        ...playReference(plays, placeOf(snap.reference)),
        value: orNull(snap.value, value),
      })),
    })),
    values: openers.values.map((of) => ({
      ...valueCount(openerWords(openers.of, snaps, dimension, of, voice), of, plays),
      later: count(of.later),
      difference: orNull(of.difference, interval),
    })),
  };
}

export function repeatResponse(habit: RepeatHabit, { dimension, plays, voice }: SequenceContext): RepeatResponse {
  const { after, repeated, anyway, expectedOf, test } = habit;
  return {
    after,
    ...evidencedShare(repeatWords(habit, dimension, voice), repeated, plays),
    anyway: orNull(anyway, rounded),
    expectedOf,
    test: orNull(test, ({ matches, expected, pValue, informative }) => ({
      matches,
      expected: rounded(expected),
      pValue: roundedP(pValue),
      informative,
    })),
  };
}

export function reactionResponse(reaction: Reaction, { dimension, plays, voice }: SequenceContext): ReactionResponse {
  const { event, snaps, known, values } = reaction;
  return {
    event,
    snaps,
    known,
    values: values.map((of) => ({
      ...valueCount(reactionWords(reaction, dimension, of, voice), of, plays),
      otherwise: count(of.otherwise),
      difference: orNull(of.difference, interval),
      pValue: orNull(of.pValue, roundedP),
      fieldPValue: orNull(of.fieldPValue, roundedP),
    })),
  };
}

export function orderResponse(order: OrderDependence, { dimension, plays, voice }: SequenceContext): OrderResponse {
  return {
    words: orderWords(order, dimension),
    within: order.within,
    pValue: orNull(order.overall, ({ pValue }) => roundedP(pValue)),
    situations: order.situations.map((of) => ({
      situation: of.situation,
      ...evidencedShare(situationOrderWords(of, dimension, voice), of.repeated, plays),
      pValue: orNull(of.test, ({ pearsonPValue }) => roundedP(pearsonPValue)),
    })),
  };
}

function placesOf({ chartIndex, playNumber }: PlayColumns): (of: PlayReference) => number {
  const places = new Map<string, number>();
  for (let play = 0; play < playNumber.length; play += 1) {
    places.set(`${chartIndex[play] ?? -1}/${playNumber[play] ?? -1}`, play);
  }
  return (of) => places.get(`${of.chartIndex}/${of.playNumber}`) ?? -1;
}
