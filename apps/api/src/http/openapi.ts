import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, type OpenAPIObject, SwaggerModule } from '@nestjs/swagger';
import { z } from 'zod';
import { ProblemBody } from '#contracts';

const DESCRIPTION = `Coordinates the rescue of water-damaged belongings after a regional disaster: intake, triage with cited reasons,
planning over stations, drying capacity and freezers, station work, custody and hand-back.

Everything belongs to exactly one network, the one of your key. Commands carry an Idempotency-Key and can be sent again safely, for 30 days unless who runs the service says otherwise;
changes of versioned resources carry If-Match. Errors are problem documents (RFC 9457). Sentences that people read come in English
or Spanish, as Accept-Language asks; codes, ids and what people wrote stay as they are. What the service says about care is advice
to a trained lead, who may override it with a recorded reason; it never promises an outcome and defers to local codes and to
licensed or trained people.`;

const TAGS: [string, string][] = [
  ['Incidents', 'One disaster for one network, with its sites, stations, rooms, freezers and people.'],
  ['Keys', 'API keys of the network.'],
  ['Audit', 'Who did what, when.'],
  ['Households', 'Owners, their contact, their consents and what they are told.'],
  ['Privacy', 'Everything held about a household, its erasure, and what holds an erasure back.'],
  ['Files', 'Photographs, recordings and written words: uploads that can be resumed, what became of them, links that lead to them for minutes.'],
  ['Tags', 'Waterproof identifiers, reserved in blocks.'],
  ['Items', 'Things and counted lots: intake, look-up, work state.'],
  ['Care', 'Assessments, colour tests, triage with reasons, overrides.'],
  ['Rule book', 'The rules with their sources, and the choices of the network where sources disagree.'],
  ['Calibration', 'The numbers that are ours and no published fact, and what the network set them to.'],
  ['Estimates', 'Triage and order of things that are only described; nothing is stored.'],
  ['Custody', 'Who holds an item: moves, freezing, referral, release, proof.'],
  ['Mutual aid', 'Agreements between networks, and things that pass from one to the other and back.'],
  ['Stations', 'Work lists and step results.'],
  ['Climate', 'Sensors, readings of air, weighings, weather; how drying rooms and what hangs there stand, and alarms.'],
  ['Plans', 'Who does which step on which item, where and when.'],
  ['Hand-backs', 'Return to the household with receipt and care advice.'],
  ['Reports', 'Situation reports and reconciliation.'],
  ['Intake files', 'Bulk intake of CSV and NDJSON.'],
  ['Service', 'Health of the service.'],
];

/** By version: most of the time that a start takes goes into it, and it depends on the code alone. */
const made = new Map<string, OpenAPIObject>();

/** The OpenAPI 3.1 document of the running application; made once in a process, whoever starts a second server there. */
export function documentOf(app: NestFastifyApplication, version: string): OpenAPIObject {
  const document = made.get(version) ?? buildDocument(app, version);
  made.set(version, document);
  return document;
}

function buildDocument(app: NestFastifyApplication, version: string): OpenAPIObject {
  const builder = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Wrackline')
    .setDescription(DESCRIPTION)
    .setVersion(version)
    .setLicense('Apache-2.0', 'https://www.apache.org/licenses/LICENSE-2.0')
    .addServer('http://127.0.0.1:8420', 'A server on this machine')
    .addBearerAuth({ type: 'http', scheme: 'bearer', bearerFormat: 'wk_<prefix>_<secret>', description: 'An API key of your network.' }, 'apiKey');
  for (const [name, description] of TAGS) builder.addTag(name, description);
  const document = SwaggerModule.createDocument(app, builder.build(), { standardSchemaConverter: convert, autoTagControllers: false });
  const problem = convert(ProblemBody, { schemaType: 'output' });
  document.info.contact = { name: 'Wrackline maintainers', email: 'maintainers@wrackline.example' };
  document.components ??= {};
  document.components.schemas = sorted({ ...document.components.schemas, ...(problem.components as object) });
  for (const body of bodiesOf(document)) for (const media of FILES) if (body[media]) body[media] = { schema: { type: 'string', format: 'binary' } };
  document.tags = document.tags?.filter((tag) => JSON.stringify(document.paths).includes(`"${tag.name}"`));
  return document;
}

/**
 * Zod to JSON Schema 2020-12 with shared schemas as components. The converter that Nest brings asks for the OpenAPI 3.0
 * dialect, whose boolean exclusiveMinimum is an error in 3.1.
 */
function convert(schema: unknown, options: { schemaType: 'input' | 'output' }): { schema: unknown; components: Record<string, unknown> } {
  const json = z.toJSONSchema(schema as z.ZodType, { target: 'draft-2020-12', io: options.schemaType, unrepresentable: 'any' }) as Record<string, unknown>;
  const { $schema: _dialect, $defs, id, ...rest } = json as { $schema?: string; $defs?: Record<string, unknown>; id?: string };
  const components = Object.fromEntries(Object.entries($defs ?? {}).map(([name, definition]) => [name, withoutId(definition)]));
  if (typeof id === 'string') return { schema: { $ref: `#/components/schemas/${id}` }, components: { ...components, [id]: rest } };
  return { schema: rest, components };
}

/** Media types that arrive as bytes, also where the same route takes JSON. */
const FILES = ['text/csv', 'application/x-ndjson'];

function bodiesOf(document: OpenAPIObject): Record<string, unknown>[] {
  const operations = Object.values(document.paths).flatMap((path) => [path.post, path.put, path.patch]);
  return operations.flatMap((operation) => (operation?.requestBody && 'content' in operation.requestBody ? [operation.requestBody.content as Record<string, unknown>] : []));
}

function withoutId(definition: unknown): unknown {
  const { id: _id, ...rest } = definition as { id?: string };
  return rest;
}

function sorted<T>(record: Record<string, T>): Record<string, T> {
  return Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1)));
}
