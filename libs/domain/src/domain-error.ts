/** Every way the domain refuses an input, as a code a caller can map; never a status of any protocol. */
export type DomainErrorCode =
  | 'bracket.invalid'
  | 'bracket.match_not_ready'
  | 'bracket.result_breaks'
  | 'bracket.result_invalid'
  | 'football.invalid_settings'
  | 'football.play_type_missing'
  | 'forecast.too_little'
  | 'forecast.unusable_sheet'
  | 'pack.unreadable'
  | 'stats.invalid_count'
  | 'stats.invalid_number'
  | 'stats.invalid_probability'
  | 'stats.invalid_shape'
  | 'stats.no_convergence'
  | 'stats.undefined_statistic'
  | 'vocabulary.ambiguous_word'
  | 'vocabulary.cycle'
  | 'vocabulary.duplicate_term'
  | 'vocabulary.invalid_reference'
  | 'vocabulary.unknown_code';

export class DomainError extends Error {
  override readonly name = 'DomainError';

  constructor(
    readonly code: DomainErrorCode,
    message: string,
    readonly details: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
  }
}
