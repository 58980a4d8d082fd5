/** Words that stand on more than one paper. */
import { say, type Message } from '#care';
import type { ConsentScope, HandBackRecord, RecordedOutcome } from '#application';
import type { Stage } from '#custody';

export const RECEIVER_WORDS: Readonly<Record<HandBackRecord['receiver'], Message>> = { contact: say('the person named for the household'), 'named-representative': say('somebody whom the household has named') };

export const CHECK_WORDS: Readonly<Record<HandBackRecord['identityCheck'], Message>> = {
  'document-seen': say('a document was seen; its number was not written down'), 'known-in-person': say('known in person'), 'pickup-code': say('by the code given for it'),
};

export const OUTCOME_WORDS: Readonly<Record<RecordedOutcome, Message>> = {
  done: say('done'), failed: say('did not succeed'), 'dye-moved': say('stopped: dye moved'), 'mould-found': say('stopped: mould was found'), 'owner-must-decide': say('stopped until the owner decides'), 'wetted-again': say('found wet again'),
};

export const STAGE_WORDS: Readonly<Record<Stage, Message>> = {
  waiting: say('waits'), 'in-work': say('in work at a station'), drying: say('hangs or lies to dry'), 'held-wet': say('kept wet on purpose'), 'held-frozen': say('kept frozen'), 'referred-out': say('away with a specialist'),
  released: say('let go by recorded agreement or decision'), 'handed-back': say('handed back'), merged: say('its record goes on under another tag'),
};

export const SCOPE_WORDS: Readonly<Record<ConsentScope, Message>> = {
  treat: say('first aid here'), freeze: say('freezing'), refer: say('a specialist'), release: say('letting it go'), photograph: say('use of photographs'),
};

export const YES = say('yes');
export const NO = say('no');
