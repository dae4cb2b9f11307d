// The book's script: what can only be a mistake. It is a plain script of a page, with no module and no library.
const browser = ["CSS", "EventSource", "URL", "addEventListener", "document", "localStorage", "location", "window"];

export default [
  {
    languageOptions: { ecmaVersion: 2022, sourceType: "script", globals: Object.fromEntries(browser.map(name => [name, "readonly"])) },
    linterOptions: { reportUnusedDisableDirectives: "error" },
    rules: {
      "array-callback-return": "error",
      "constructor-super": "error",
      "eqeqeq": "error",
      "no-cond-assign": "error",
      "no-const-assign": "error",
      "no-dupe-args": "error",
      "no-dupe-else-if": "error",
      "no-dupe-keys": "error",
      "no-empty": "error",
      "no-eval": "error",
      "no-fallthrough": "error",
      "no-implicit-globals": "error",
      "no-redeclare": "error",
      "no-self-assign": "error",
      "no-shadow": "error",
      "no-undef": "error",
      "no-unreachable": "error",
      "no-unused-vars": "error",
      "no-use-before-define": ["error", { functions: false }],
      "no-var": "error",
      "prefer-const": "error",
      "use-isnan": "error",
      "valid-typeof": "error",
    },
  },
];
