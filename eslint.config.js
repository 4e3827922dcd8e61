import js from '@eslint/js';
import { defineConfig, globalIgnores } from 'eslint/config';
import { configs as lit } from 'eslint-plugin-lit';
import litA11y from 'eslint-plugin-lit-a11y';
import { configs as wc } from 'eslint-plugin-wc';
import tseslint from 'typescript-eslint';

export default defineConfig(
  globalIgnores(['dist*/**', 'coverage/**']),
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strictTypeChecked, tseslint.configs.stylisticTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
    },
  },
  {
    // The compiler reads an element of a typed array as perhaps undefined, also where the loop's bound rules that out.
    files: ['src/{columns,statistics,intake,judging,learning,patterns,charts,worker}/**/*.ts', 'tests/**/*.ts'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    // A published coefficient keeps all its printed digits, so that it can be checked against its source.
    files: ['src/statistics/**/*.ts', 'tests/**/*.ts'],
    rules: { 'no-loss-of-precision': 'off' },
  },
  {
    files: ['src/ui/**/*.ts'],
    extends: [lit['flat/recommended'], wc['flat/recommended']],
    plugins: { 'lit-a11y': litA11y },
    settings: { wc: { elementBaseClasses: ['LitElement'] } },
    rules: {
      ...litA11y.configs.recommended.rules,
      'lit/lifecycle-super': 'error',
      'lit/no-native-attributes': 'error',
      'lit/no-this-assign-in-render': 'error',
      'lit/no-useless-template-literals': 'error',
      'lit/no-value-attribute': 'error',
      'lit/prefer-static-styles': 'error',
      'lit/quoted-expressions': 'error',
      // Lit calls the element's own super methods, and binds the listeners that a template names.
      'wc/guard-super-call': 'off',
      '@typescript-eslint/unbound-method': 'off',
    },
  },
  { files: ['**/*.{js,mjs}'], languageOptions: { globals: { console: 'readonly' } } },
);
