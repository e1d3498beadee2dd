/* The rules for our scripts: what is wrong, not what is a taste. A name that is not listed is not of the page. */

const OF_A_PAGE = [
  "document", "history", "location", "localStorage", "navigator", "setInterval", "URL", "URLSearchParams", "window",
  "MutationObserver",
];
const rules = {
  "array-callback-return": "error",
  "complexity": ["error", 15],
  "consistent-return": "error",
  "eqeqeq": "error",
  "no-cond-assign": "error",
  "no-const-assign": "error",
  "no-constant-condition": "error",
  "no-dupe-args": "error",
  "no-dupe-else-if": "error",
  "no-dupe-keys": "error",
  "no-duplicate-case": "error",
  "no-duplicate-imports": "error",
  "no-empty": "error",
  "no-eval": "error",
  "no-ex-assign": "error",
  "no-fallthrough": "error",
  "no-func-assign": "error",
  "no-implied-eval": "error",
  "no-import-assign": "error",
  "no-loop-func": "error",
  "no-loss-of-precision": "error",
  "no-new-func": "error",
  "no-redeclare": "error",
  "no-self-assign": "error",
  "no-self-compare": "error",
  "no-sparse-arrays": "error",
  "no-undef": "error",
  "no-unreachable": "error",
  "no-unsafe-negation": "error",
  "no-unused-expressions": "error",
  "no-unused-vars": ["error", { caughtErrors: "none" }],
  "no-use-before-define": ["error", { functions: false, variables: false }],
  "use-isnan": "error",
  "valid-typeof": "error",
};
const globals = (...names) => Object.fromEntries([...OF_A_PAGE, ...names].map(name => [name, "readonly"]));

export default [
  { linterOptions: { reportUnusedDisableDirectives: "error" } },
  {
    files: ["themes/base/scripts/**/*.js"],
    languageOptions: { ecmaVersion: 2020, sourceType: "module", globals: globals() },
    rules,
  },
  {
    files: ["themes/base/assets/*.js"],
    languageOptions: { ecmaVersion: 2020, sourceType: "script", globals: globals() },
    rules,
  },
  {
    files: ["generator/preview/*.js"],
    languageOptions: { ecmaVersion: 2020, sourceType: "script", globals: globals("EventSource") },
    rules,
  },
];
