/**
 * What every column that can hold words is, for privacy. A test compares this with the database: a new column without a decision fails it.
 *
 * `sealed`  words of a family or about people, under the key of its household (or, where rows are about several, of the network); an erasure sets it to null
 * `blanked` words of our people about a thing or a household, in the clear because lists, searches and rules need them; an erasure blanks them
 * `clear`   was personal and is sealed by now; holds something only until the worker has sealed it; an erasure sets it to null
 * `gone`    removed by the erasure in a way of its own, see `erase.ts`
 * `ours`    about the network, its places, rules and people who work; or a template of ours without anybody's words
 * Columns of "C" text are codes, states, numbers, hashes and tags, unless they are named here.
 */
export type Decision = 'sealed' | 'clear' | 'gone' | 'ours' | { blanked: string };

/** Where our people may have said anything. */
export const ERASED = '(erased)';
const blanked = { blanked: `'${ERASED}'` } as const;
const blankedIfSaid = (column: string): Decision => ({ blanked: `case when ${column} is null or ${column} = '' then ${column} else '${ERASED}' end` });

type Columns = Readonly<Record<string, Decision>>;

/** Tables with rows of a household or of its things. `rows` is a condition; $1 network, $2 household, $3 its items. */
export const PERSONAL_TABLES: Readonly<Record<string, { rows: string; columns: Columns }>> = {
  household: { rows: 'id = $2', columns: { code: { blanked: `'erased-' || id` }, language: 'ours' } },
  household_contact: { rows: 'household_id = $2', columns: { name: 'clear', phone: 'clear', email: 'clear', address: 'clear', sealed: 'sealed' } },
  household_hold: { rows: 'household_id = $2', columns: { reason: 'sealed' } },
  consent: { rows: 'household_id = $2', columns: { note: 'clear', note_sealed: 'sealed' } },
  custody_words: { rows: 'household_id = $2', columns: { sealed: 'sealed' } },
  found_item: { rows: 'item_id = any($3)', columns: { place: 'sealed', finder: 'sealed' } },
  owner_mark: { rows: 'item_id = any($3)', columns: { question: 'sealed', answer: 'sealed' } },
  ownership_claim: { rows: 'household_id = $2', columns: { answers: 'sealed' } },
  item: { rows: 'id = any($3)', columns: { description: blanked, family_words: 'clear', family_words_sealed: 'sealed', photograph_ref: blankedIfSaid('photograph_ref') } },
  assessment: { rows: 'item_id = any($3)', columns: { observed: 'ours', seen_again_reason: blankedIfSaid('seen_again_reason') } },
  disposition_override: { rows: 'item_id = any($3)', columns: { reason: blanked, rule_book_version: 'ours', open_needs: 'ours' } },
  hand_back: { rows: 'household_id = $2', columns: { signature_ref: blankedIfSaid('signature_ref'), receipt: { blanked: `'{}'::jsonb` }, reservations: 'sealed', signature: 'sealed' } },
  hand_back_item: { rows: 'item_id = any($3)', columns: { condition_note: blankedIfSaid('condition_note') } },
  hand_back_appointment: { rows: 'household_id = $2', columns: { code_salt: 'ours', code_hash: 'ours' } },
  hand_over: {
    rows: 'id in (select l.hand_over_id from hand_over_line l where l.network_id = $1 and l.item_id = any($3))',
    columns: { reason: blankedIfSaid('reason'), ended_note: blankedIfSaid('ended_note') },
  },
  hand_over_line: { rows: 'item_id = any($3)', columns: { note: blankedIfSaid('note') } },
  manifest_exception: { rows: 'item_id = any($3)', columns: { reason: blankedIfSaid('reason'), settlement: blankedIfSaid('settlement') } },
  plan_wish: { rows: 'item_id = any($3)', columns: { pinned: 'ours', reason: blanked, withdrawn_reason: blankedIfSaid('withdrawn_reason'), lapsed_why: 'ours', lapsed_why_values: 'ours' } },
  referral: { rows: 'item_id = any($3)', columns: { reason: blanked, payer: blankedIfSaid('payer') } },
  referral_quote: { rows: 'item_id = any($3)', columns: { work: blanked } },
  scan: { rows: 'item_id = any($3)', columns: { said: { blanked: `said - 'note'` }, problem: 'ours' } },
  sighting: { rows: 'item_id = any($3)', columns: { note: blankedIfSaid('note') } },
  step_result: { rows: 'item_id = any($3)', columns: { note: blankedIfSaid('note') } },
  stock_take_resolution: {
    rows: 'stock_take_resolution.stock_take_id in (select l.stock_take_id from stock_take_line l where l.network_id = $1 and l.item_id = any($3)) and stock_take_resolution.difference_id = any($3)',
    columns: { reason: blanked },
  },
  unsuited_step: { rows: 'item_id = any($3)', columns: { people: 'ours', reason: blankedIfSaid('reason') } },
  weighing: { rows: 'item_id = any($3)', columns: { note: blankedIfSaid('note') } },
  intake_import_row: { rows: 'item_id = any($3)', columns: { remarks: { blanked: `'[]'::jsonb` }, cells: { blanked: `'{}'::jsonb` }, cells_sealed: 'sealed' } },
  aid_offer: { rows: 'item_id = any($3)', columns: { facts: { blanked: `jsonb_set(facts, '{description}', '"${ERASED}"')` } } },
  owner_question: { rows: 'household_id = $2', columns: { own_words: 'sealed', answers: 'ours' } },
  family_message: { rows: 'household_id = $2', columns: { recipient: 'sealed' } },
  unreached_address: { rows: 'household_id = $2', columns: { address: 'sealed' } },
  family_matter: { rows: 'household_id = $2', columns: { advice_text: 'ours', advice_values: 'ours', settlement: 'sealed' } },
  status_link: { rows: 'household_id = $2', columns: { secret_sha256: 'ours', for_whom: 'sealed', code_salt: 'ours', code_hash: 'ours' } },
  uncollected: { rows: 'household_id = $2', columns: { reason: 'sealed' } },
  unclaimed_decision: { rows: 'item_id = any($3)', columns: { reason: 'sealed' } },
  file: { rows: 'household_id = $2', columns: { removed: 'ours', deleted_reason: 'sealed' } },
  // Its keys are sealed for the household: what lies outside is unreadable with it, and is removed by the worker.
  file_object: { rows: 'false', columns: { content_key: 'gone' } },
};

/** Columns of other tables, by what they are. */
export const OTHER_COLUMNS: Readonly<Record<string, Columns>> = {
  household_key: { wrapped: 'gone' },
  idempotency_record: { body: 'gone', headers: 'ours', body_sealed: 'gone' },
  item_word: { word: 'gone' },
  household_word: { word: 'gone' },
  // The whole file, sealed for the network, is emptied when the import is over; refused rows and the names of files are looked through.
  intake_import: { file_name: 'gone', media_type: 'ours', reading: 'ours', content: 'gone', failure: 'ours', failure_values: 'ours' },
  // Words of earlier versions stay where a hash covers them; the erasure says how many.
  custody_event: { refs: 'ours', corrects_reason: 'ours' },
  container_event: { refs: 'ours', corrects_reason: 'ours' },
  network_key: { wrapped: 'ours' },
  // Of rooms and boxes, not of a household; yet they may name one (see `names.ts`).
  alarm: { acknowledged_note: 'gone', evidence: 'ours', present: 'ours', acknowledged_present: 'ours', clearing: 'ours' },
  container: { description: 'gone' },
  ...Object.fromEntries(Object.entries({
    aid_agreement: 'partner_name invitation_sha256', api_key: 'secret_sha256 label scopes', calibration_value: 'reason', colour_test: 'colour',
    custody_root_block: 'leaf_hashes subtree', dehumidifier: 'name', drying_place: 'name', drying_room: 'name', freezer: 'name', holding_area: 'name', incident: 'name place default_water state',
    item_climate: 'detail', label_template: 'name template', network: 'name time_zone', paper_line: 'problem', outbox: 'traceparent dead_reason', person: 'display_name skills restrictions', plan_ground: 'document', plan_revision: 'summary',
    retention_run: 'policy gone', plan_run: 'reason failure reason_values failure_values', plan_unplanned: 'blocker_what', plan_what_if: 'asked result failure failure_values', room_checkpoint: 'state', room_course: 'standing forecast',
    rule_book_choice: 'choices version reason', sensor: 'name', shelf: 'name', site: 'name place', specialist: 'name field material_classes openings', station: 'name steps', stock_take_line: 'way', tag: 'replaced_reason', tag_block: 'reserved_for',
    triage_result: 'rule_book_version result', vehicle: 'name rides runs',
  }).map(([table, columns]) => [table, Object.fromEntries(columns.split(' ').map((column) => [column, 'ours' as const]))])),
};
