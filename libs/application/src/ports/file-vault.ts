/**
 * Where the bytes of files lie: a folder, or a store that speaks S3. What is put there is sealed already; names are 64 random hexadecimal
 * digits, registered in `FileStore` before anything is put under them.
 */
export interface FileVault {
  /** For start-up logs; never a secret. */
  readonly place: string;
  /** Returns when the bytes would outlive a power cut. A name is put once. */
  put(name: string, bytes: Uint8Array): Promise<void>;
  /** Null where nothing lies under the name. */
  get(name: string): Promise<Uint8Array | null>;
  /** Null where nothing lies under the name. */
  stat(name: string): Promise<{ bytes: number } | null>;
  /** Removes what lies under the name; nothing there is as good as removed. */
  delete(name: string): Promise<void>;
}
