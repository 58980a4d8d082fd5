import type { CustodyEvent, Keeper, OpenMatters } from '#custody';

export interface ContainerRecord {
  networkId: string;
  id: string;
  incidentId: string;
  siteId: string;
  tagCode: string;
  kind: 'box' | 'bag' | 'tub' | 'crate';
  description: string;
  createdAtMs: number;
  /** Number of the last event of its record; 0 for one from before containers had records. */
  seq: number;
  headHash: string;
  /** Null before its first event. */
  keeper: Keeper | null;
  matters: OpenMatters;
  lastSeenAtMs: number;
  version: number;
}

/** What is in a container and in the containers inside it. */
export interface InsideCount {
  items: number;
  pieces: number;
  containers: number;
  volumeL: number;
  /** Levels of containers inside it; 0 when there is none. */
  levels: number;
}

/** One thing in a container, or in a container inside it. */
export interface InsideRow {
  thing: 'item' | 'container';
  id: string;
  tagCode: string;
  description: string;
  /** The container that keeps it. */
  containerId: string;
  /** 1 when it lies in the container that was asked about, 2 for one deeper, and so on. */
  depth: number;
}

/** The projection of a container beside the end of its chain, as `ChainHead` is for an item. */
export interface ContainerHead {
  containerId: string;
  seq: number;
  headHash: string;
  keeper: Keeper | null;
  matters: OpenMatters;
}

export interface ContainerStore {
  /** With its first event already told: seq, hash and keeper of the record. */
  insert(container: ContainerRecord): Promise<void>;
  find(containerId: string): Promise<ContainerRecord | null>;
  /** Locks in the order of the ids, so that two who need the same containers never wait for each other in a circle. Absent ids are absent. */
  lockMany(containerIds: readonly string[], mode: 'update' | 'share'): Promise<ContainerRecord[]>;
  /** The container and those around it, innermost first. Stops before a circle, which only a broken database can hold. */
  path(containerId: string): Promise<ContainerRecord[]>;
  inside(containerId: string): Promise<InsideCount>;
  /** In the order of ids; with `nested` those inside containers inside it, too. */
  contents(containerId: string, nested: boolean, limit: number, afterId: string | null): Promise<InsideRow[]>;
  /** As `CustodyStore.append`, for a container. */
  append(event: CustodyEvent, matters: OpenMatters, incidentId: string): Promise<number>;
  appendFirst(event: CustodyEvent, incidentId: string): Promise<void>;
  chain(containerId: string, afterSeq: number, limit: number): Promise<CustodyEvent[]>;
  /** In id order, for verification. */
  heads(incidentId: string, limit: number, afterId: string | null): Promise<ContainerHead[]>;
  chains(containerIds: readonly string[]): Promise<Map<string, CustodyEvent[]>>;
}
