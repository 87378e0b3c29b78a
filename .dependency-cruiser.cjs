/** Which way imports may point. The tree is the architecture; this file makes it hold. */
module.exports = {
  forbidden: [
    {
      name: 'no-cycles',
      comment: 'Two files that need each other are one file, or hide a third.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'domain-is-pure',
      comment: 'The domain imports itself and mathematics; no framework, no I/O, no clock.',
      severity: 'error',
      from: { path: '^libs/domain/src', pathNot: '(\\.test\\.ts$|/testing/)' },
      to: { pathNot: '^(libs/domain/src|node_modules/@stdlib)' },
    },
    {
      name: 'testing-for-tests',
      comment: 'What stands in a folder testing may use what tests use, so nothing that is served imports it.',
      severity: 'error',
      from: { path: '^(apps|libs)', pathNot: '(\\.test\\.ts$|/testing/)' },
      to: { path: '/testing/' },
    },
    {
      name: 'mathematics-through-one-file',
      comment: 'One file wraps the distributions, so that the library can change.',
      severity: 'error',
      from: { path: '^libs/domain/src', pathNot: '^libs/domain/src/statistics/distributions\\.ts$' },
      to: { path: '^node_modules/@stdlib' },
    },
    {
      name: 'sql-in-repositories',
      comment: 'Only repositories and the database folder talk to PostgreSQL.',
      severity: 'error',
      from: { path: '^apps/api/src', pathNot: '(^apps/api/src/database/|\\.repository\\.ts$)' },
      to: { path: '^node_modules/(pg|pg-copy-streams|typeorm)/' },
    },
    {
      name: 'features-by-service',
      comment: 'A feature enters another only through its service.',
      severity: 'error',
      from: { path: '^apps/api/src/features/([^/]+)/' },
      to: {
        path: '^apps/api/src/features/([^/]+)/',
        pathNot: [
          '^apps/api/src/features/$1/',
          '\\.(service|module)\\.ts$',
          '/access/[a-z-]+\\.ts$',
          '/tendencies/tendency-query\\.dto\\.ts$',
        ],
      },
    },
    {
      name: 'rendering-is-pure',
      comment: 'Data in, text out.',
      severity: 'error',
      from: { path: '^apps/api/src/rendering/', pathNot: '\\.test\\.ts$' },
      to: { pathNot: '^(apps/api/src/rendering|libs/domain/src)' },
    },
    {
      name: 'api-does-not-reach-out',
      comment: 'What ships knows nothing of tests, benches and seeds.',
      severity: 'error',
      from: { path: '^(apps|libs|migrations)/', pathNot: '\\.test\\.ts$' },
      to: { path: '^(test|bench|seeds-demo)/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['source', 'import', 'require', 'node', 'default'],
    },
  },
};
