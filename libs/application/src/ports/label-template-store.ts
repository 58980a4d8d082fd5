import type { LabelTemplate } from '#custody';

/** A grid that a network wrote down for its own sheets. */
export interface LabelTemplateRecord {
  id: string;
  /** The incident of the limited key that made it; null for one of the whole network. */
  incidentId: string | null;
  name: string;
  template: LabelTemplate;
  createdAtMs: number;
  createdBy: string;
}

export interface LabelTemplateStore {
  insert(record: LabelTemplateRecord): Promise<void>;
  /** Null when the network (or the key's incident) has no such template. */
  find(id: string): Promise<LabelTemplateRecord | null>;
  /** In the order in which they were made; `after` is exclusive. */
  page(limit: number, after: string | null): Promise<LabelTemplateRecord[]>;
  /** What stands on the labels of an incident. */
  incidentName(incidentId: string): Promise<string | null>;
}
