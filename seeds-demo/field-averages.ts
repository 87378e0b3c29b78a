import type { Weights } from './randomness.js';

/**
 * What the field does on average. Common practice, made up for the demo in round numbers; no source. Each player's
 * habits are drawn around these.
 */

export const FORMATIONS: Weights = {
  'two by two wide': 20,
  pro: 9,
  twins: 7,
  'double tight': 6,
  'tight end wing': 5,
  'three by one wide': 13,
  'three by one with tight end': 12,
  'three by one closed': 5,
  bunch: 7,
  stack: 3,
  'empty three by two': 6,
  condensed: 4,
  'three tight ends': 2,
  'goal line': 0.5,
};

export const FORMATIONS_WHEN_LONG: Weights = {
  'two by two wide': 1.3,
  'three by one wide': 1.7,
  'three by one with tight end': 1.2,
  'empty three by two': 2,
  'double tight': 0.2,
  'tight end wing': 0.3,
  pro: 0.5,
  'three tight ends': 0.05,
  'goal line': 0.01,
};

export const FORMATIONS_WHEN_SHORT: Weights = {
  'two by two wide': 0.6,
  'three by one wide': 0.6,
  'empty three by two': 0.5,
  'double tight': 2,
  'tight end wing': 1.8,
  'three tight ends': 5,
  'goal line': 8,
};

export const PERSONNEL_OF: Readonly<Record<string, Weights>> = {
  'two by two wide': { '10 personnel': 55, '11 personnel': 45 },
  pro: { '11 personnel': 60, '21 personnel': 25, '12 personnel': 15 },
  twins: { '11 personnel': 50, '12 personnel': 30, '21 personnel': 20 },
  'double tight': { '12 personnel': 85, '22 personnel': 15 },
  'tight end wing': { '12 personnel': 80, '13 personnel': 20 },
  'three by one wide': { '10 personnel': 60, '11 personnel': 40 },
  'three by one with tight end': { '11 personnel': 85, '12 personnel': 15 },
  'three by one closed': { '11 personnel': 90, '12 personnel': 10 },
  bunch: { '11 personnel': 75, '10 personnel': 25 },
  stack: { '10 personnel': 50, '11 personnel': 50 },
  'empty three by two': { '00 personnel': 25, '10 personnel': 30, '11 personnel': 45 },
  condensed: { '11 personnel': 60, '12 personnel': 40 },
  'three tight ends': { '13 personnel': 75, '22 personnel': 25 },
  'goal line': { '23 personnel': 60, '22 personnel': 40 },
};

export const MOTIONS: Weights = {
  none: 54,
  jet: 8,
  'jet fake': 3,
  orbit: 3,
  across: 9,
  'short in': 5,
  'short out': 3,
  return: 4,
  'tight end trade': 4,
  'back out': 4,
  'back side switch': 3,
};

export const MOTION_BY: Readonly<Record<string, Weights>> = {
  jet: { slot: 70, outside: 30 },
  'jet fake': { slot: 70, outside: 30 },
  orbit: { slot: 80, outside: 20 },
  across: { slot: 55, outside: 20, 'tight end': 25 },
  'short in': { outside: 70, slot: 30 },
  'short out': { slot: 70, outside: 30 },
  return: { slot: 70, outside: 30 },
  'tight end trade': { 'tight end': 1 },
  'back out': { back: 1 },
  'back side switch': { back: 1 },
};

export const TEMPOS: Weights = {
  huddle: 66,
  'no-huddle normal pace': 16,
  'no-huddle fast': 8,
  'sugar huddle': 6,
  'after a stoppage': 4,
};

export type CallSituation =
  | 'first'
  | 'second short'
  | 'second medium'
  | 'second long'
  | 'third short'
  | 'third medium'
  | 'third long'
  | 'goal line'
  | 'hurry'
  | 'burn';

export const PASS_SHARE: Readonly<Record<CallSituation, number>> = {
  first: 0.46,
  'second short': 0.4,
  'second medium': 0.54,
  'second long': 0.67,
  'third short': 0.42,
  'third medium': 0.8,
  'third long': 0.9,
  'goal line': 0.42,
  hurry: 0.86,
  burn: 0.18,
};

export const RUN_FAMILIES: Weights = {
  run: 76,
  option: 8,
  draw: 4,
  'designed quarterback run': 4,
  'run-pass option': 8,
};

export const PASS_FAMILIES: Weights = {
  'dropback pass': 44,
  'quick pass': 22,
  'play action': 14,
  'moving pocket': 7,
  screen: 13,
};

export const PASS_FAMILIES_WHEN_LONG: Weights = {
  'dropback pass': 1.6,
  'quick pass': 0.6,
  'play action': 0.15,
  screen: 0.9,
};
export const PASS_FAMILIES_WHEN_SHORT: Weights = {
  'dropback pass': 0.6,
  'quick pass': 2,
  'moving pocket': 1.6,
  screen: 0.5,
};

export const CONCEPTS: Readonly<Record<string, Weights>> = {
  run: {
    'inside zone': 24,
    'split zone': 9,
    'middle zone': 4,
    'outside zone': 15,
    duo: 9,
    power: 10,
    counter: 9,
    'counter one puller': 2,
    trap: 3,
    isolation: 4,
    'pin and pull': 3,
    toss: 5,
    'jet sweep': 3,
  },
  option: { 'zone read': 70, 'power read': 15, 'speed option': 15 },
  draw: { 'delay draw': 1 },
  'designed quarterback run': { 'quarterback power': 40, 'quarterback draw': 40, 'quarterback sweep': 20 },
  'run-pass option': { 'inside zone': 60, 'split zone': 15, 'outside zone': 15, power: 10 },
  'quick pass': {
    slants: 22,
    'slant and flat': 14,
    stick: 20,
    spot: 10,
    hitches: 14,
    'quick outs': 8,
    fade: 5,
    'pick and flat': 7,
  },
  'dropback pass': {
    'four verticals': 11,
    mesh: 11,
    'shallow cross': 10,
    drive: 7,
    smash: 10,
    'curl and flat': 10,
    dig: 6,
    'seam clear and dig': 6,
    levels: 5,
    'deep cross': 6,
    'corner and post': 4,
    'deep comeback': 4,
    'back option': 5,
    'double move': 3,
    'switch verticals': 2,
  },
  'play action': { 'post and cross': 40, leak: 15, 'tight end pop': 20, 'deep cross': 25 },
  'moving pocket': { flood: 55, 'bootleg flood': 45 },
  screen: { 'running back screen': 35, 'wide receiver screen': 40, 'tunnel screen': 18, 'tight end screen': 7 },
};

export const RUN_PASS_OPTION_TAGS: Weights = {
  'bubble tag': 35,
  'quick out or hitch tag': 20,
  'slant or glance tag': 25,
  'stick tag': 15,
  'flat or slice tag': 5,
};

export const GAPS_OF: Readonly<Record<string, Weights>> = {
  'inside zone': { 'A gap': 55, 'B gap': 45 },
  'split zone': { 'A gap': 45, 'B gap': 55 },
  'middle zone': { 'B gap': 60, 'C gap': 40 },
  'outside zone': { 'C gap': 45, 'D gap': 55 },
  duo: { 'A gap': 60, 'B gap': 40 },
  power: { 'B gap': 40, 'C gap': 60 },
  counter: { 'B gap': 40, 'C gap': 60 },
  'counter read': { 'B gap': 40, 'C gap': 60 },
  'counter one puller': { 'B gap': 60, 'C gap': 40 },
  trap: { 'A gap': 80, 'B gap': 20 },
  isolation: { 'A gap': 40, 'B gap': 60 },
  'pin and pull': { 'C gap': 30, 'D gap': 70 },
  toss: { 'D gap': 40, outside: 60 },
  'jet sweep': { outside: 70, 'D gap': 30 },
  'zone read': { 'A gap': 40, 'B gap': 60 },
  'power read': { 'B gap': 50, edge: 50 },
  'speed option': { edge: 60, outside: 40 },
  'delay draw': { 'A gap': 60, 'B gap': 40 },
  'quarterback power': { 'B gap': 50, 'C gap': 50 },
  'quarterback draw': { 'A gap': 70, 'B gap': 30 },
  'quarterback sweep': { 'D gap': 60, outside: 40 },
  'quarterback sneak': { 'A gap': 1 },
};

export const FRONTS: Weights = {
  'four down over': 26,
  'four down under': 15,
  'four down even': 17,
  'four down wide': 8,
  'three down odd': 12,
  'three down tight': 6,
  'three down stack': 6,
  'double eagle': 5,
  'five man line': 4,
  'both A gaps shown': 3,
};

export const COVERAGES: Weights = {
  'cover 0': 2,
  'cover 1': 16,
  'cover 1 robber': 6,
  'cover 2 man': 6,
  'cover 2': 12,
  'cover 2 middle run-through': 6,
  'cover 3': 13,
  'cover 3 sky': 9,
  'cover 3 buzz': 4,
  'cover 3 match': 5,
  'cover 4': 9,
  'cover 4 match': 6,
  'cover 4 read number two': 3,
  'quarter quarter half': 7,
};

export const COVERAGES_WHEN_LONG: Weights = {
  'cover 2': 1.3,
  'cover 2 man': 1.8,
  'cover 4': 1.6,
  'quarter quarter half': 1.5,
  'cover 3 sky': 0.6,
};

export const PRESSURES: Weights = {
  'three-man rush': 4,
  'four-man rush': 56,
  'line game': 9,
  'simulated pressure': 7,
  'five-man zone pressure': 9,
  'five-man man pressure': 9,
  'six-man pressure': 3,
  overload: 2,
  'delayed rush': 1,
};

export const PRESSURES_WHEN_LONG: Weights = {
  'three-man rush': 2.2,
  'four-man rush': 0.8,
  'simulated pressure': 1.7,
  'six-man pressure': 1.6,
  overload: 1.8,
};

export const RUSHERS: Readonly<Record<string, number>> = {
  'three-man rush': 3,
  'four-man rush': 4,
  'line game': 4,
  'simulated pressure': 4,
  'five-man zone pressure': 5,
  'five-man man pressure': 5,
  'six-man pressure': 6,
  'all-out pressure': 7,
  overload: 5,
  'delayed rush': 5,
};

export const PRESSURE_PATHS: Weights = { interior: 38, 'edge pressure': 44, 'interior and edge': 18 };
export const PRESSURE_SIDES: Weights = { 'strong side': 32, 'weak side': 30, 'field side': 20, 'boundary side': 18 };
export const SOURCES_OF: Readonly<Record<string, Weights>> = {
  interior: { 'middle linebacker': 60, 'weak-side linebacker': 40 },
  'edge pressure': {
    'slot defender': 40,
    'strong-side linebacker': 25,
    'edge linebacker': 20,
    corner: 8,
    'safety down': 7,
  },
  'interior and edge': { 'middle linebacker': 50, 'slot defender': 50 },
};

export const MANUAL_STARTS: Weights = {
  'middle linebacker': 40,
  'deep safety': 20,
  'slot defender': 12,
  end: 10,
  'weak-side linebacker': 10,
  'safety down': 8,
};

export const MANUAL_ACTIONS: Readonly<Record<string, Weights>> = {
  'middle linebacker': {
    'stands in the middle hole': 35,
    'plays the run first': 30,
    'drops deep middle': 10,
    rushes: 10,
    'takes a hook to strength': 10,
    'switches after the throw': 5,
  },
  'deep safety': {
    'plays deep safety': 75,
    'doubles a receiver': 10,
    'leaves his zone': 10,
    'switches after the throw': 5,
  },
  'slot defender': { 'covers a receiver man': 40, 'jumps the flat': 30, rushes: 20, 'takes a hook to strength': 10 },
  end: { 'plays on the line': 60, rushes: 40 },
  'weak-side linebacker': {
    'takes a hook away from strength': 40,
    'plays the run first': 35,
    'spies the quarterback': 15,
    rushes: 10,
  },
  'safety down': { 'plays the run first': 50, 'jumps the flat': 30, 'fakes a rush then drops': 20 },
};

export const ALIGNMENTS: Weights = {
  'no adjustment': 50,
  'line shifts to a side': 8,
  'line tightens': 6,
  'linebackers shift to a side': 5,
  'second-level defender up on the edge': 6,
  'slot defender in the box': 6,
  'safety down strong': 5,
  'safeties deeper': 4,
  'corners press': 10,
  'corners off': 6,
};

/** Logit of going for it on fourth down, before distance, spot and score have their say. */
export const GO_FOR_IT = -1.2;
