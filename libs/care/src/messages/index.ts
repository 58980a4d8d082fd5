export { LANGUAGES, say } from './message.js';
export type { Language, Message } from './message.js';
export { render, renderWithin, translate, translatorFor } from './render.js';
export { differencesInLanguage, inLanguage, questionsInLanguage, sourceInLanguage, statementsInLanguage, stepInLanguage } from './in-language.js';
export { answerInWords, wordsOfAnswer } from './answer-words.js';
export { MATERIAL_WORDS } from './material-words.js';
export { DAMAGE_WORDS, SIGNIFICANCE_WORDS, SKILL_WORDS, STEP_WORDS, URGENCY_WORDS, WAY_WORDS, ZONE_WORDS } from './words.js';
export { neverPlainly, plainly, stepPlainly, wornPlainly } from './plainly.js';
export { isLate, startByInWords, stretchInWords } from './start-by.js';
