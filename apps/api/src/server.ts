import 'reflect-metadata';
import { VersioningType } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { OpenAPIObject } from '@nestjs/swagger';
import type { FastifyInstance } from 'fastify';
import { type ApiParts, AppModule } from './app.module.js';
import { renderPage } from './docs/page.js';
import { serveFiles } from './files-route.js';
import { configureFastify, createAdapter } from './http/fastify.js';
import { documentOf } from './http/openapi.js';
import { ProblemFilter } from './http/problem.filter.js';
import { RateLimits } from './http/rate-limits.js';

export interface Api {
  app: NestFastifyApplication;
  document: OpenAPIObject;
  /** `http://host:port`, after `listen`. */
  url: string;
  close(): Promise<void>;
}

/** Builds the application without listening: for tests, for the document, and for `listen`. */
export async function createApi(parts: ApiParts): Promise<Omit<Api, 'url'>> {
  const app = await NestFactory.create<NestFastifyApplication>(AppModule.with(parts), createAdapter(), { logger: false, abortOnError: false });
  app.enableVersioning({ type: VersioningType.URI });
  await configureFastify(app);
  const document = documentOf(app, parts.settings.version);
  serveDocument(app, document);
  serveFiles(app.getHttpAdapter().getInstance() as unknown as FastifyInstance, parts, app.get(ProblemFilter));
  await app.init();
  await (app.getHttpAdapter().getInstance() as unknown as FastifyInstance).ready();
  return {
    app,
    document,
    async close() {
      // At the same time, so that what runs in a thread has its grace while the server waits for it.
      await Promise.all([app.close(), parts.acceptance.close(), parts.plans.close(), parts.documents.close()]);
      await app.get(RateLimits).close();
    },
  };
}

/** Listens on a host and port (0 takes a free one). */
export async function listen(parts: ApiParts, host: string, port: number): Promise<Api> {
  const api = await createApi(parts);
  await api.app.listen(port, host);
  const address = api.app.getHttpServer().address() as { port: number };
  return { ...api, url: `http://${host.includes(':') ? `[${host}]` : host}:${address.port}` };
}

/** The document for machines and the same as a page for people. */
function serveDocument(app: NestFastifyApplication, document: OpenAPIObject): void {
  const fastify = app.getHttpAdapter().getInstance() as unknown as FastifyInstance;
  const page = renderPage(document);
  fastify.get('/openapi.json', async (_request, reply) => reply.send(document));
  fastify.get('/docs', async (_request, reply) =>
    reply.header('content-security-policy', "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'").type('text/html; charset=utf-8').send(page),
  );
}
