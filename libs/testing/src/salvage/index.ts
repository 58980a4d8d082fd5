export { Alone } from './alone.js';
export { canonicalJson, digestOf } from './digest.js';
export { applyEvent, eventScript, type IncidentEvent, type IncidentEventKind, type ScriptWanted } from './events.js';
export { generateIncident, GENERATOR_VERSION, type IncidentMeta, type IncidentWanted } from './generate-incident.js';
export { loadOf, workOf } from './load.js';
export { LOADED, PRESET_NAMES, PRESETS, type Loaded, type PresetName, type Settings } from './settings.js';
export { adoptPlan, startWork, workOff, type WorkState } from './work-off.js';
