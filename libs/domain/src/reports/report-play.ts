/** Bounds in [0, 1]; a plain object, since a report is stored as JSON. */
export interface ReportInterval {
  readonly lower: number;
  readonly upper: number;
}

/** A play of the report's evidence, by ids that outlive every renaming. */
export interface ReportPlay {
  readonly chartId: string;
  readonly playNumber: number;
}
