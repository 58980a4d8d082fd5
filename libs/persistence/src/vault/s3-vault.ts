import { DeleteObjectCommand, GetObjectCommand, HeadObjectCommand, PutObjectCommand, S3Client } from '@aws-sdk/client-s3';
import type { FileVault } from '#application';
import type { S3Config } from '#platform';

/** Bytes in a bucket of any store that speaks S3. What is put there is sealed before, so the store reads nothing. */
export class S3Vault implements FileVault {
  readonly place: string;
  private readonly client: S3Client;
  private readonly bucket: string;
  private readonly prefix: string;

  constructor(config: S3Config) {
    this.place = `bucket ${config.bucket}${config.endpoint === null ? '' : ` at ${config.endpoint}`}`;
    this.bucket = config.bucket;
    this.prefix = config.prefix;
    this.client = new S3Client({
      region: config.region, forcePathStyle: config.pathStyle, credentials: { accessKeyId: config.accessKeyId, secretAccessKey: config.secretAccessKey }, ...(config.endpoint !== null && { endpoint: config.endpoint }),
      maxAttempts: 3,
      // Checksums in trailers are newer than many stores; our own seal shows what was altered.
      requestChecksumCalculation: 'WHEN_REQUIRED', responseChecksumValidation: 'WHEN_REQUIRED',
      requestHandler: { connectionTimeout: 5_000, requestTimeout: 30_000 },
    });
  }

  async put(name: string, bytes: Uint8Array): Promise<void> {
    await this.client.send(new PutObjectCommand({ ...this.at(name), Body: bytes, ContentLength: bytes.length, ContentType: 'application/octet-stream' }));
  }

  async get(name: string): Promise<Uint8Array | null> {
    const answer = await this.client.send(new GetObjectCommand(this.at(name))).catch(absent);
    return (await answer?.Body?.transformToByteArray()) ?? null;
  }

  async stat(name: string): Promise<{ bytes: number } | null> {
    const answer = await this.client.send(new HeadObjectCommand(this.at(name))).catch(absent);
    return answer === null ? null : { bytes: answer.ContentLength ?? 0 };
  }

  async delete(name: string): Promise<void> {
    await this.client.send(new DeleteObjectCommand(this.at(name))).catch(absent);
  }

  close(): void {
    this.client.destroy();
  }

  private at(name: string): { Bucket: string; Key: string } {
    return { Bucket: this.bucket, Key: `${this.prefix}${name}` };
  }
}

/** Nothing there; anything else is trouble of the store. */
function absent(error: unknown): null {
  const { name, $metadata } = error as { name?: string; $metadata?: { httpStatusCode?: number } };
  if (name === 'NoSuchKey' || (name === 'NotFound' && $metadata?.httpStatusCode === 404)) return null;
  throw error;
}
