import config from './jest.config.js';

/** What is tried in a real browser; apart, since `npm test` shall need nothing but Node. */
export default {
  ...config,
  testMatch: ['<rootDir>/test/browser/**/*.test.ts'],
  testPathIgnorePatterns: ['/node_modules/'],
};
