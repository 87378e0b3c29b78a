import fc from 'fast-check';

/** One seed for all property tests, so that a run can be repeated; FAST_CHECK_SEED looks elsewhere. */
fc.configureGlobal({ seed: Number(process.env['FAST_CHECK_SEED'] ?? 20_260_301) });
