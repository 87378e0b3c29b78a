const swc = (syntax) => [
  '@swc/jest',
  {
    swcrc: false,
    jsc: {
      parser: { syntax, decorators: true },
      transform: { legacyDecorator: true, decoratorMetadata: true },
      target: 'es2023',
      keepClassNames: true,
    },
    module: { type: 'commonjs' },
    sourceMaps: 'inline',
  },
];

export default {
  testEnvironment: 'node',
  testEnvironmentOptions: { customExportConditions: ['source', 'node', 'node-addons'] },
  testMatch: ['<rootDir>/{apps,libs,seeds-demo,test}/**/*.test.ts'],
  testPathIgnorePatterns: ['/node_modules/', '<rootDir>/test/browser/', '<rootDir>/dist/'],
  moduleNameMapper: { '^(\\.{1,2}/.*)\\.js$': ['$1', '$1.js'] },
  transform: { '\\.ts$': swc('typescript'), 'node_modules/.+\\.m?js$': swc('ecmascript') },
  // Jest runs CommonJS; packages that ship ES modules only are compiled like our own code.
  transformIgnorePatterns: ['/node_modules/(?!(@nestjs|uuidv7|openid-client|oauth4webapi|jose)/)'],
  setupFiles: ['<rootDir>/test/support/fast-check-seed.ts'],
  globalSetup: '<rootDir>/test/support/global-setup.cjs',
  globalTeardown: '<rootDir>/test/support/global-teardown.cjs',
  reporters: ['default', '<rootDir>/test/support/totals-reporter.cjs'],
  // Looking up a global is slow in Jest's sandbox, and the statistics do so many millions of times.
  sandboxInjectedGlobals: ['Array', 'Float64Array', 'Int32Array', 'Map', 'Math', 'Number', 'Object', 'Set'],
  coverageProvider: 'v8',
  maxWorkers: 2,
};
