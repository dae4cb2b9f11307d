// What a browser would drop without a word, and what is written twice. How lines are laid out is nobody's rule here.
export default {
  rules: {
    "annotation-no-unknown": true,
    "at-rule-no-unknown": true,
    "block-no-empty": true,
    "color-no-invalid-hex": true,
    "custom-property-no-missing-var-function": true,
    "declaration-block-no-duplicate-custom-properties": true,
    "declaration-block-no-duplicate-properties": true,
    "declaration-block-no-shorthand-property-overrides": true,
    "declaration-property-value-no-unknown": true,
    "font-family-no-duplicate-names": true,
    "function-no-unknown": true,
    "media-feature-name-no-unknown": true,
    "no-duplicate-selectors": true,
    "no-invalid-double-slash-comments": true,
    "property-no-unknown": true,
    "selector-pseudo-class-no-unknown": true,
    "selector-pseudo-element-no-unknown": true,
    "selector-type-no-unknown": [true, { ignoreTypes: ["search"] }],
    "unit-no-unknown": true,
  },
};
