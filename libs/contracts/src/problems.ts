/**
 * The one catalogue of problems (RFC 9457). `code` is the stable word a client branches on, `title` never varies
 * with the occurrence, `detail` says what to fix. Nothing of the inside (SQL, names of constraints, stacks) is ever
 * put into a problem.
 */
export const PROBLEMS = {
  body_malformed: { status: 400, title: 'The body could not be read' },
  validation_failed: { status: 400, title: 'Some values are missing or not allowed' },
  cursor_invalid: { status: 400, title: 'The page cursor is not one of ours for this list' },
  idempotency_key_missing: { status: 400, title: 'An Idempotency-Key is required' },
  idempotency_key_malformed: { status: 400, title: 'The Idempotency-Key is not a UUID' },
  key_missing: { status: 401, title: 'An API key is required' },
  key_invalid: { status: 401, title: 'The API key is unknown, expired or revoked' },
  network_suspended: { status: 403, title: 'The network is suspended' },
  scope_missing: { status: 403, title: 'The API key lacks the scope for this' },
  not_found: { status: 404, title: 'There is no such thing here' },
  route_not_found: { status: 404, title: 'There is no such route' },
  method_not_allowed: { status: 405, title: 'The route does not take this method' },
  already_exists: { status: 409, title: 'It is there already' },
  command_running: { status: 409, title: 'The same command is still running' },
  tag_taken: { status: 409, title: 'The tag is tied to another thing' },
  wrong_keeper: { status: 409, title: 'The item is not where the command moves it from' },
  wrong_stage: { status: 409, title: 'The item is not in a stage that allows this' },
  hand_over_open: { status: 409, title: 'A hand-over of it is open' },
  hand_over_not_open: { status: 409, title: 'The hand-over is not open any more' },
  hand_over_for_another: { status: 409, title: 'The hand-over is for somebody else to answer' },
  manifest_state: { status: 409, title: 'The manifest is in another state' },
  manifest_differs: { status: 409, title: 'What is aboard differs from the manifest' },
  stock_take_closed: { status: 409, title: 'The stock-take is closed' },
  stock_take_differs: { status: 409, title: 'Differences of the stock-take are open' },
  location_disputed: { status: 409, title: 'Two reports say that it is in two places' },
  item_missing: { status: 409, title: 'It was reported missing' },
  item_terminal: { status: 409, title: 'The item has left the network' },
  capacity_full: { status: 409, title: 'The place has no room for it' },
  company_refused: { status: 409, title: 'It must not lie with what is there' },
  upload_offset: { status: 409, title: 'The upload stands at another byte' },
  uploads_full: { status: 409, title: 'Too many uploads are unfinished' },
  file_state: { status: 409, title: 'The file is not in a state that allows this' },
  file_sensitive: { status: 409, title: 'The file is marked as sensitive' },
  consent_missing: { status: 409, title: 'The owner has not agreed to this' },
  owner_unknown: { status: 409, title: 'The owner of the thing is not known' },
  owner_known: { status: 409, title: 'The owner of the thing is on record' },
  claim_closed: { status: 409, title: 'The claim is not open any more' },
  claim_person: { status: 409, title: 'Somebody else must do this' },
  claim_tries_used: { status: 409, title: 'No further claim is taken now' },
  incident_closed: { status: 409, title: 'The incident is closed' },
  legal_hold: { status: 409, title: 'The household must not be erased now' },
  legal_hold_ended: { status: 409, title: 'The legal hold has ended before' },
  household_erased: { status: 409, title: 'What was known of the household has been erased' },
  items_held: { status: 409, title: 'Things of the incident are still held' },
  measurement_conflicts: { status: 409, title: 'Another value is on record for the same moment' },
  key_last_manager: { status: 409, title: 'The last key that can manage keys stays' },
  upload_expired: { status: 410, title: 'The upload has expired' },
  tus_version: { status: 412, title: 'The version of the upload protocol is missing or another' },
  version_stale: { status: 412, title: 'It was changed since you read it' },
  body_too_large: { status: 413, title: 'The body is larger than this route takes' },
  media_type_unsupported: { status: 415, title: 'The route does not take this media type' },
  range_not_satisfiable: { status: 416, title: 'There is no such part' },
  idempotency_key_reused: { status: 422, title: 'The Idempotency-Key was used for another command' },
  tag_invalid: { status: 422, title: 'The tag fails its check characters' },
  template_unfit: { status: 422, title: 'The labels do not fit the page' },
  tag_unknown: { status: 422, title: 'The tag was never reserved for this incident' },
  reference_unknown: { status: 422, title: 'A reference names nothing of this incident' },
  command_refused: { status: 422, title: 'The command cannot be carried out' },
  measurement_refused: { status: 422, title: 'What was measured cannot be so' },
  observations_contradict: { status: 422, title: 'What was observed cannot all be true' },
  person_not_suited: { status: 422, title: 'Somebody else should do this' },
  precondition_required: { status: 428, title: 'If-Match is required' },
  rate_limited: { status: 429, title: 'Too many requests' },
  internal: { status: 500, title: 'Something went wrong on our side' },
  unavailable: { status: 503, title: 'A part of the service is not available' },
} as const;

export type ProblemCode = keyof typeof PROBLEMS;

/** One fault of a request; `pointer` is a JSON Pointer in fragment form into the body, or `parameter` a name. */
export interface ProblemError {
  detail: string;
  code: string;
  pointer?: string;
  parameter?: string;
}

export interface ProblemExtras {
  errors?: ProblemError[];
  retryAfterS?: number;
  /** Members that belong to the problem type, such as `currentEtag`, `keeper` or `nearest`. A `Message` in them is said in the language of the caller. */
  members?: Record<string, unknown>;
  /** True when this is the stored answer of an earlier request with the same key. */
  replayed?: boolean;
  /** For the log only; never sent. */
  internal?: string;
}

/** The only error a use case throws on purpose. Anything else is a fault of ours: 500 with nothing inside. */
export class Problem extends Error {
  readonly status: number;

  constructor(readonly code: ProblemCode, readonly detail: string, readonly extras: ProblemExtras = {}) {
    super(`${code}: ${detail}`);
    this.name = 'Problem';
    this.status = PROBLEMS[code].status;
  }
}

/** The same answer for an id that never was and for an id of another network. */
export function notFound(what: string): Problem {
  return new Problem('not_found', `No ${what} with this id is visible to your key.`);
}
