import { z } from 'zod';

/** What the environment says of photographs, recordings and words; part of the environment of `config.ts`. Sizes and times are our own calibration. */
export const filesEnvironment = {
  /** Largest photograph and recording, in millions of bytes. */
  WRACKLINE_FILE_PHOTOGRAPH_MB: z.coerce.number().int().min(1).max(50).default(15),
  WRACKLINE_FILE_VOICE_MB: z.coerce.number().int().min(1).max(100).default(25),
  /** Hours after which an upload that is not complete is given up. */
  WRACKLINE_FILE_UPLOAD_HOURS: z.coerce.number().int().min(1).max(720).default(24),
  /** Minutes for which a link to a file leads to it. */
  WRACKLINE_FILE_LINK_MINUTES: z.coerce.number().int().min(1).max(60).default(10),
  /** Where the bytes lie, sealed: a folder of its own; `files` in the state directory when left out. All API and worker processes must see the same. */
  WRACKLINE_FILE_FOLDER: z.string().optional(),
  /** Any store that speaks S3 instead. With a bucket, the region and both keys are needed; the endpoint is for stores that are not Amazon's. */
  WRACKLINE_S3_BUCKET: z.string().optional(),
  WRACKLINE_S3_ENDPOINT: z.url().optional(),
  WRACKLINE_S3_REGION: z.string().default('us-east-1'),
  WRACKLINE_S3_ACCESS_KEY_ID: z.string().optional(),
  WRACKLINE_S3_SECRET_ACCESS_KEY: z.string().optional(),
  /** The bucket stands in the path and not in the host's name; most stores of one's own want it. */
  WRACKLINE_S3_PATH_STYLE: z.enum(['true', 'false']).default('true'),
  /** Before every name, such as `wrackline/`. */
  WRACKLINE_S3_PREFIX: z.string().regex(/^[A-Za-z0-9/_-]{0,100}$/).default(''),
};

export interface S3Config {
  bucket: string;
  endpoint: string | null;
  region: string;
  accessKeyId: string;
  secretAccessKey: string;
  pathStyle: boolean;
  prefix: string;
}

export interface FilesConfig {
  photographBytes: number;
  voiceBytes: number;
  uploadHours: number;
  linkMinutes: number;
  /** `files` in the state directory when null. */
  folder: string | null;
  s3: S3Config | null;
}

type FilesEnvironment = z.output<z.ZodObject<typeof filesEnvironment>>;

const MILLION = 1_000_000;

/** @returns the configuration, or what is wrong with it in a sentence for the operator. */
export function filesConfig(e: FilesEnvironment): FilesConfig | string {
  const s3 = s3Config(e);
  if (typeof s3 === 'string') return s3;
  return {
    photographBytes: e.WRACKLINE_FILE_PHOTOGRAPH_MB * MILLION, voiceBytes: e.WRACKLINE_FILE_VOICE_MB * MILLION, uploadHours: e.WRACKLINE_FILE_UPLOAD_HOURS, linkMinutes: e.WRACKLINE_FILE_LINK_MINUTES,
    folder: e.WRACKLINE_FILE_FOLDER ?? null, s3,
  };
}

function s3Config(e: FilesEnvironment): S3Config | null | string {
  const [bucket, accessKeyId, secretAccessKey] = [e.WRACKLINE_S3_BUCKET, e.WRACKLINE_S3_ACCESS_KEY_ID, e.WRACKLINE_S3_SECRET_ACCESS_KEY];
  if (bucket === undefined) return null;
  if (accessKeyId === undefined || secretAccessKey === undefined) return 'With WRACKLINE_S3_BUCKET set, WRACKLINE_S3_ACCESS_KEY_ID and WRACKLINE_S3_SECRET_ACCESS_KEY are needed.';
  if (e.WRACKLINE_FILE_FOLDER !== undefined) return 'Set WRACKLINE_S3_BUCKET or WRACKLINE_FILE_FOLDER, not both.';
  return { bucket, endpoint: e.WRACKLINE_S3_ENDPOINT ?? null, region: e.WRACKLINE_S3_REGION, accessKeyId, secretAccessKey, pathStyle: e.WRACKLINE_S3_PATH_STYLE === 'true', prefix: e.WRACKLINE_S3_PREFIX };
}

/** The same as a child process reads it. */
export function filesVariables(files: FilesConfig): Record<string, string | null> {
  const s3 = files.s3;
  return {
    WRACKLINE_FILE_PHOTOGRAPH_MB: String(files.photographBytes / MILLION), WRACKLINE_FILE_VOICE_MB: String(files.voiceBytes / MILLION), WRACKLINE_FILE_UPLOAD_HOURS: String(files.uploadHours), WRACKLINE_FILE_LINK_MINUTES: String(files.linkMinutes),
    ...(s3 === null
      ? { WRACKLINE_FILE_FOLDER: files.folder }
      : {
          WRACKLINE_S3_BUCKET: s3.bucket, WRACKLINE_S3_ENDPOINT: s3.endpoint, WRACKLINE_S3_REGION: s3.region, WRACKLINE_S3_ACCESS_KEY_ID: s3.accessKeyId, WRACKLINE_S3_SECRET_ACCESS_KEY: s3.secretAccessKey,
          WRACKLINE_S3_PATH_STYLE: String(s3.pathStyle), WRACKLINE_S3_PREFIX: s3.prefix,
        }),
  };
}
