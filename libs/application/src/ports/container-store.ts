export interface ContainerRecord {
  id: string;
  incidentId: string;
  siteId: string;
  tagCode: string;
  kind: 'box' | 'bag' | 'tub' | 'crate';
  description: string;
  createdAtMs: number;
}

export interface ContainerStore {
  insert(container: ContainerRecord): Promise<void>;
  find(containerId: string): Promise<ContainerRecord | null>;
}
