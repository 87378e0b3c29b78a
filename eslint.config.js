import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['dist/', 'node_modules/', '.data/', 'coverage/', '**/*.js', '**/*.cjs'] },
  ...tseslint.configs.strictTypeChecked,
  ...tseslint.configs.stylisticTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: 'ObjectExpression > Property[kind=/^[gs]et$/]',
          message: 'V8 keeps what each of them sees until the next full collection; write a class, or a function.',
        },
      ],
      // Nest modules are classes that only carry a decorator.
      '@typescript-eslint/no-extraneous-class': ['error', { allowWithDecorator: true }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/consistent-type-definitions': ['error', 'interface'],
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      // What goes in and out over HTTP is described by classes without behaviour; any object of that shape is one.
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
    },
  },
  {
    // The same classes without behaviour lose nothing when one answer is spread into another.
    files: ['apps/api/src/features/**/*.ts', 'apps/api/src/common/**/*.ts'],
    rules: { '@typescript-eslint/no-misused-spread': 'off' },
  },
  {
    files: ['**/*.test.ts', '**/testing/*.ts', 'test/**/*.ts'],
    // Jest's matchers and supertest's bodies are typed loosely by their authors.
    rules: {
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
    },
  },
);
