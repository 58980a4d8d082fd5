import { AsyncLocalStorage } from 'node:async_hooks';
import { PassThrough, Readable } from 'node:stream';
import { finished } from 'node:stream/promises';
import { setTimeout as sleep } from 'node:timers/promises';
import { Inject, Injectable } from '@nestjs/common';
import { DataStore, ERRORS, Server, Upload } from '@tus/server';
import { appendPart, endUpload, type FileVault, type FileWork, getUpload, PART_BYTES, type UnitOfWork, type UseCaseCall } from '#application';
import { Problem, type ProblemCode } from '#contracts';
import type { Call } from '../../http/call.js';
import { UPLOAD_PART } from '../../http/fastify.js';
import { Runner } from '../../http/runner.js';
import { UNIT_OF_WORK, VAULT } from '../../http/tokens.js';

/** One request of the protocol: who asks, and what our side refused it with. */
interface Asked {
  call: UseCaseCall;
  refused: unknown;
}

/** Statuses of the protocol as problems of ours; tus 1.0. */
const PROBLEM_OF: Readonly<Record<number, [ProblemCode, string]>> = {
  400: ['validation_failed', 'A header of the upload protocol is missing or not valid. See tus 1.0: Tus-Resumable, Upload-Offset.'],
  403: ['validation_failed', 'Say with Upload-Offset where this part begins.'],
  404: ['not_found', 'No upload with this id is visible to your key.'],
  409: ['upload_offset', 'The upload stands at another byte. Ask with HEAD where it stands and go on from there.'],
  410: ['upload_expired', 'The upload was not finished in time. Begin a new one.'],
  412: ['tus_version', 'Send Tus-Resumable: 1.0.0.'],
  413: ['body_too_large', 'The part goes beyond what the upload was announced with.'],
  423: ['unavailable', 'Another request is at this upload. Try again in a moment.'],
};
/** Of what the protocol answers, the headers that we pass on. */
const PASSED_ON = ['tus-resumable', 'tus-version', 'tus-extension', 'upload-offset', 'upload-length'];
/** Of tus 1.0.0: https://tus.io/protocols/resumable-upload, "Creation" (done by `beginUpload`) and "Termination". */
const EXTENSIONS = ['creation', 'termination'];
const RETRY_AFTER_S = 2;
/** Our own calibration. */
const RUN_DRY_MS = 5_000;

/**
 * Resumable uploads by the open protocol tus 1.0. The package speaks it (headers, order, one request at an upload at a time); where bytes go and who may
 * see what is ours. Refusals come as problem documents.
 */
@Injectable()
export class TusUploads {
  private readonly asked = new AsyncLocalStorage<Asked>();
  private readonly server: Server;

  constructor(@Inject(UNIT_OF_WORK) unitOfWork: UnitOfWork, @Inject(VAULT) vault: FileVault, @Inject(Runner) private readonly runner: Runner) {
    const store = new UploadStore({ unitOfWork, vault }, this.asked);
    this.server = new Server({
      path: '/v1/uploads', datastore: store, allowedOrigins: [], lockDrainTimeout: 1_000,
      // Before the line at the upload: a stranger must not make the owner's request end, nor learn that there is one.
      onIncomingRequest: async (_request, id) => void (await store.getUpload(id)),
      // A request that had to make way for another at the same upload was not malformed, as the package would say.
      onResponseError: (_request, error) => (error === ERRORS.ABORTED ? { status_code: 423, body: '' } : undefined),
    });
  }

  /** Answers HEAD, PATCH, DELETE and OPTIONS; the headers go to the reply. @throws Problem for everything that the protocol refuses */
  async answer(call: Call): Promise<void> {
    const { request, reply } = call;
    if (request.method === 'PATCH' && !(request.body instanceof Readable)) throw new Problem('media_type_unsupported', `Send a part of an upload as ${UPLOAD_PART}.`);
    const asked: Asked = { call: this.runner.about(call), refused: null };
    const answer = await this.asked.run(asked, () => this.server.handleWeb(webRequest(call)));
    if (answer.status >= 400) {
      await runDry(request.body);
      throw refusalOf(answer.status, asked.refused);
    }
    for (const name of PASSED_ON) {
      const value = answer.headers.get(name);
      if (value !== null) reply.header(name, value);
    }
    reply.status(answer.status);
  }
}

function webRequest({ request }: Call): Request & { ip: string } {
  const headers = new Headers(Object.entries(request.headers).filter((entry): entry is [string, string] => typeof entry[1] === 'string' && /^(tus-|upload-|content-)/.test(entry[0])));
  const body = request.body instanceof Readable ? { body: Readable.toWeb(tapped(request.body)) as ReadableStream, duplex: 'half' as const } : {};
  return new Request(`http://localhost${request.url.split('?')[0] ?? ''}`, { method: request.method, headers, ...body }) as Request & { ip: string };
}

/** The body at one remove: whoever gives it up gives up only the tap, and the line to the sender stays. */
function tapped(body: Readable): Readable {
  const tap = new PassThrough();
  body.once('error', (error) => tap.destroy(error));
  return body.pipe(tap);
}

/** Lets what still comes of a refused part run away for a while, so that its sender gets to read why it was refused. Nothing of it is kept. */
async function runDry(body: unknown): Promise<void> {
  if (!(body instanceof Readable) || body.readableEnded || body.destroyed) return;
  body.unpipe();
  body.resume();
  const late = new AbortController();
  await Promise.race([finished(body).catch(() => undefined), sleep(RUN_DRY_MS, undefined, { signal: late.signal }).catch(() => undefined)]);
  late.abort();
}

function refusalOf(status: number, refused: unknown): unknown {
  if (refused !== null) return refused;
  const [code, detail] = PROBLEM_OF[status] ?? [];
  if (code === undefined || detail === undefined) return new Error(`the upload protocol answered ${status}`);
  return new Problem(code, detail, code === 'unavailable' ? { retryAfterS: RETRY_AFTER_S } : {});
}

/** Uploads as the package sees them. */
class UploadStore extends DataStore {
  constructor(private readonly work: FileWork, private readonly asked: AsyncLocalStorage<Asked>) {
    super();
  }

  override extensions = EXTENSIONS;

  /** Ends the upload; its bytes are freed by the worker. */
  override remove(id: string): Promise<void> {
    return this.told(({ call }) => this.work.unitOfWork.write(call.context, async (stores) => {
      await endUpload(stores, call, { fileId: id });
      await stores.audit.noteDone({ principalId: call.context.principalId, operation: 'endUpload', subjectKind: 'uploads', subjectId: id, requestId: call.context.requestId });
    }));
  }

  override getUpload(id: string): Promise<Upload> {
    return this.told(async ({ call }) => {
      const file = await this.work.unitOfWork.read(call.context, (stores) => getUpload(stores, call, { fileId: id }));
      return new Upload({ id, size: file.declaredBytes, offset: file.offsetBytes });
    });
  }

  /** Takes the stream part by part; each is durable before the next is read. Of a line that breaks off, what had arrived is kept. */
  override write(stream: Readable, id: string, offset: number): Promise<number> {
    return this.told(async ({ call }) => {
      let [at, waiting, bytes]: [number, Buffer[], number] = [offset, [], 0];
      const take = async () => {
        if (bytes === 0) return;
        const part = Buffer.concat(waiting);
        [waiting, bytes] = [[], 0];
        await appendPart(this.work, call, { fileId: id, atByte: at, bytes: part });
        at += part.length;
      };
      let broken: unknown = null;
      try {
        for await (const chunk of stream as AsyncIterable<Buffer>) {
          waiting.push(chunk);
          bytes += chunk.length;
          if (bytes >= PART_BYTES) await take();
        }
      } catch (error) {
        if (error instanceof Problem) throw error;
        broken = error;
      }
      await take();
      if (broken !== null) throw broken;
      return at;
    });
  }

  /** Runs for the request that asks, and remembers what it was refused with: the package would make a text of it. */
  private async told<T>(work: (asked: Asked) => Promise<T>): Promise<T> {
    const asked = this.asked.getStore();
    if (!asked) throw new Error('an upload outside of a request');
    try {
      return await work(asked);
    } catch (error) {
      asked.refused ??= error;
      throw error;
    }
  }
}
