import { TOLD_LABELS, type ToldDimension } from '../tells/told-dimensions.js';

interface DimensionWords {
  /** Before a value that does not say by itself what it is a value of; empty where it does. */
  readonly noun: string;
  /** What "you" do with a value. */
  readonly verb: string;
}

const WORDS: Readonly<Record<ToldDimension, DimensionWords>> = {
  called: { noun: '', verb: 'call' },
  callFamily: { noun: '', verb: 'call' },
  concept: { noun: '', verb: 'call' },
  formation: { noun: 'formation', verb: 'line up in' },
  backfield: { noun: 'backfield', verb: 'line up in' },
  motion: { noun: 'motion', verb: 'use' },
  direction: { noun: '', verb: 'go' },
  designedSide: { noun: 'to the', verb: 'go' },
  targetDepth: { noun: 'throw', verb: '' },
  tempo: { noun: 'tempo', verb: 'use' },
  offensivePersonnel: { noun: 'personnel', verb: 'play' },
  front: { noun: 'front', verb: 'show' },
  shell: { noun: 'shell', verb: 'show' },
  coverage: { noun: 'coverage', verb: 'play' },
  coverageFamily: { noun: '', verb: 'play' },
  pressure: { noun: '', verb: 'have' },
  rushers: { noun: '', verb: 'send' },
  manualDefenderAction: { noun: 'controlled defender', verb: 'use your' },
  boxCount: { noun: '', verb: 'put' },
};

/** `pass`, `motion jet`: a value as a noun. */
export function callWords(dimension: ToldDimension, label: string): string {
  if (label === 'none') return `no ${TOLD_LABELS[dimension]}`;
  return [WORDS[dimension].noun, label].filter((word) => word !== '').join(' ');
}

/** `call pass`, `show shell two high`: what comes after "an opponent would learn that you". */
export function callVerb(dimension: ToldDimension, label: string): string {
  return [WORDS[dimension].verb, callWords(dimension, label)].filter((word) => word !== '').join(' ');
}
