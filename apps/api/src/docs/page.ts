import type { OpenAPIObject } from '@nestjs/swagger';

interface Operation {
  operationId: string;
  summary: string;
  description: string;
  tags: string[];
  parameters?: { name: string; in: string; required?: boolean; description?: string }[];
  requestBody?: { content: Record<string, { schema: unknown }> };
  responses: Record<string, { description: string; content?: Record<string, { schema: unknown }> }>;
}

const STYLE = `body{font:17px/1.55 Georgia,serif;max-width:60rem;margin:2rem auto;padding:0 1rem;color:#1d2a2b;background:#fdfcf8}
h1,h2,h3{font-family:Georgia,serif;font-weight:600;line-height:1.25}h2{margin-top:3rem;border-bottom:2px solid #7a8f83}h3{margin:2rem 0 .3rem}
code,pre{font:14px/1.45 ui-monospace,monospace}pre{background:#f1efe6;padding:.7rem;overflow:auto;border-left:4px solid #7a8f83}
table{border-collapse:collapse}td,th{text-align:left;vertical-align:top;padding:.2rem .9rem .2rem 0}nav a{margin-right:1rem}.path{color:#46594f}details{margin:.4rem 0}`;

/** The document as one page of plain HTML, readable without scripts and printable. */
export function renderPage(document: OpenAPIObject): string {
  const operations = Object.entries(document.paths).flatMap(([path, item]) =>
    Object.entries(item as Record<string, Operation>).map(([method, operation]) => ({ path, method: method.toUpperCase(), operation })),
  );
  const tags = document.tags ?? [];
  const nav = tags.map((tag) => `<a href="#${slug(tag.name)}">${text(tag.name)}</a>`).join('');
  const sections = tags.map((tag) => {
    const mine = operations.filter(({ operation }) => operation.tags.includes(tag.name));
    return `<section id="${slug(tag.name)}"><h2>${text(tag.name)}</h2><p>${text(tag.description ?? '')}</p>${mine.map(({ path, method, operation }) => renderOperation(document, path, method, operation)).join('')}</section>`;
  });
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${text(document.info.title)} API</title><style>${STYLE}</style></head>
<body><h1>${text(document.info.title)} API, version ${text(document.info.version)}</h1>${paragraphs(document.info.description ?? '')}
<p>The machine-readable document is at <a href="/openapi.json">/openapi.json</a> (OpenAPI ${text(document.openapi)}).</p><nav>${nav}</nav>${sections.join('')}</body></html>`;
}

function renderOperation(document: OpenAPIObject, path: string, method: string, operation: Operation): string {
  const parameters = operation.parameters ?? [];
  const rows = parameters.map((parameter) => `<tr><td><code>${text(parameter.name)}</code></td><td>${text(parameter.in)}${parameter.required ? ', required' : ''}</td><td>${text(parameter.description ?? '')}</td></tr>`).join('');
  const body = Object.entries(operation.requestBody?.content ?? {}).map(([type, content]) => `<details><summary>Body <code>${text(type)}</code></summary>${example(document, content.schema)}</details>`).join('');
  const responses = Object.entries(operation.responses).map(([status, response]) => {
    const content = Object.entries(response.content ?? {}).find(([type]) => type === 'application/json');
    return `<tr><td>${text(status)}</td><td>${text(response.description)}${content ? `<details><summary>example</summary>${example(document, content[1].schema)}</details>` : ''}</td></tr>`;
  }).join('');
  return `<article id="${text(operation.operationId)}"><h3>${text(operation.summary)}</h3><p class="path"><code>${method} ${text(path)}</code> <small>(${text(operation.operationId)})</small></p>${paragraphs(operation.description)}
${rows ? `<table>${rows}</table>` : ''}${body}<table>${responses}</table></article>`;
}

/** The example of a schema, following one reference; the schema itself where it has none. */
function example(document: OpenAPIObject, schema: unknown): string {
  const resolved = resolve(document, schema);
  return `<pre>${text(JSON.stringify(resolved['example'] ?? resolved, null, 2))}</pre>`;
}

function resolve(document: OpenAPIObject, schema: unknown): Record<string, unknown> {
  const reference = (schema as { $ref?: string }).$ref;
  if (reference === undefined) return schema as Record<string, unknown>;
  return (document.components?.schemas?.[reference.replace('#/components/schemas/', '')] ?? {}) as Record<string, unknown>;
}

function paragraphs(description: string): string {
  return description.split('\n\n').map((part) => `<p>${text(part).replaceAll(/`([^`]+)`/g, '<code>$1</code>')}</p>`).join('');
}

function slug(name: string): string {
  return name.toLowerCase().replaceAll(/[^a-z]+/g, '-');
}

function text(value: string): string {
  return value.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
