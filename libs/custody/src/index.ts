export * from './types.js';
export { keeper, sameKeeper, keeperPhrase, describeKeeper } from './keeper.js';
export { KIND_RULES, REF, STAGE_KEEPERS, TERMINAL_STAGES, stageAfter, type KindRule, type RequiredRef } from './stage-rules.js';
export { FUTURE_TOLERANCE_MS, beforeIntake, decide, evolve, isRefusal } from './decide.js';
export { isCountFault, splitExtent, type CountFault, type LotExtent } from './split.js';
export { GENESIS_HASH, canonicalForm, hashEvent, sha256Hex, verifyChain } from './hash-chain.js';
export { checkDigits97, isValid97, mod97 } from './iso7064.js';
export { TAG_ALPHABET, TAG_CODE_LENGTH, TAG_KINDS, TAG_SERIAL_COUNT, formatTagCode, isTagCode, isTagFault, makeTagCode, parseTagCode, type TagCode, type TagFault, type TagKind } from './tag-code.js';
export { nearestPlausible } from './nearest-tag.js';
