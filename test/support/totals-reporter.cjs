/** Prints the totals as one plain line, last, for readers that are not people. */
module.exports = class TotalsReporter {
  onRunComplete(_contexts, { numPassedTests, numFailedTests, numPendingTests, numRuntimeErrorTestSuites }) {
    // A file that does not even load has no tests to count, so it counts as one failure.
    const failed = numFailedTests + numRuntimeErrorTestSuites;
    const skipped = numPendingTests > 0 ? `, ${numPendingTests} skipped` : '';
    process.stdout.write(`${numPassedTests} passed, ${failed} failed${skipped}\n`);
  }
};
