import javascript from '@eslint/js';
import reactHooks from 'eslint-plugin-react-hooks';
import { defineConfig, globalIgnores } from 'eslint/config';
import typescript from 'typescript-eslint';

const pureCore = 'The core is pure: the caller passes this in.';

/** What only a browser or Node offers. */
const hostGlobals = [
  'window',
  'document',
  'navigator',
  'location',
  'localStorage',
  'sessionStorage',
  'indexedDB',
  'fetch',
  'XMLHttpRequest',
  'WebSocket',
  'Worker',
  'self',
  'postMessage',
  'setTimeout',
  'setInterval',
  'queueMicrotask',
  'requestAnimationFrame',
  'performance',
  'crypto',
  'console',
  'process',
  'Buffer',
  'global',
  'globalThis',
  'require',
];

export default defineConfig(
  globalIgnores(['**/dist/', '**/node_modules/', 'coverage/', 'bench/out/', '.cache/']),
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  javascript.configs.recommended,
  // Published coefficients are quoted with all their digits.
  { rules: { 'no-loss-of-precision': 'off' } },
  {
    files: ['**/*.ts', '**/*.tsx'],
    extends: [typescript.configs.strictTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-import-type-side-effects': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      // An index that the loop bounds is checked by reading; `?? 0` there would hide a wrong one.
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['**/*.js', '**/*.mjs', '**/*.cjs'],
    languageOptions: {
      globals: { console: 'readonly', performance: 'readonly', URL: 'readonly', module: 'writable' },
    },
  },
  {
    files: ['**/src/**', '**/scripts/**', 'bench/**'],
    rules: {
      'max-lines': ['error', { max: 350, skipBlankLines: true, skipComments: true }],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'One concept, one name: export it by name.' },
      ],
    },
  },
  {
    files: ['packages/core/src/**'],
    rules: {
      'no-restricted-globals': ['error', ...hostGlobals.map((name) => ({ name, message: pureCore }))],
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'random',
          message: 'The core is deterministic: draw from a seeded generator.',
        },
      ],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'One concept, one name: export it by name.' },
        { selector: 'NewExpression[callee.name="Date"]', message: pureCore },
        { selector: 'CallExpression[callee.name="Date"]', message: pureCore },
        { selector: 'MemberExpression[object.name="Date"]', message: pureCore },
        { selector: 'MemberExpression[object.name="Intl"]', message: 'Its answers depend on the machine.' },
        { selector: 'ImportExpression', message: 'The core is loaded whole.' },
      ],
      'no-restricted-imports': [
        'error',
        { patterns: [{ group: ['node:*', 'fs', 'path', 'os', 'react*'], message: pureCore }] },
      ],
    },
  },
  {
    files: ['packages/web/**/*.ts', 'packages/web/**/*.tsx'],
    extends: [reactHooks.configs.flat.recommended],
  },
  {
    files: ['**/test/**'],
    rules: {
      // `expect(object.method)` names a method without calling it.
      '@typescript-eslint/unbound-method': 'off',
    },
  },
);
