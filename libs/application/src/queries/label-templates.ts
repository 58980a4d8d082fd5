import { BUILT_IN_TEMPLATES, labelsPerPage, type LabelTemplate } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { LabelTemplateRecord } from '../ports/label-template-store.js';
import type { Stores } from '../ports/work.js';
import { refuseUnfit } from '../tags/unfit-template.js';
import { printableBlock, type PrintableBlock } from './tags.js';

/** A template that can be printed on: one that comes with the program has no record of its own. */
export interface NamedTemplate {
  /** Id of the network's own, or the name of one that comes with the program. */
  id: string;
  name: string;
  template: LabelTemplate;
  own: LabelTemplateRecord | null;
}

/** Those of the program first, then the network's own in the order in which they were made. */
export async function listLabelTemplates(stores: Stores, _call: UseCaseCall, input: { limit: number; after: string | null }): Promise<NamedTemplate[]> {
  const builtIn = BUILT_IN_TEMPLATES.map(({ id, template }) => ({ id, name: id, template, own: null }));
  const at = builtIn.findIndex(({ id }) => id === input.after);
  const ahead = input.after === null ? builtIn : at >= 0 ? builtIn.slice(at + 1) : [];
  if (ahead.length >= input.limit) return ahead.slice(0, input.limit);
  const own = await stores.labelTemplates.page(input.limit - ahead.length, at >= 0 ? null : input.after);
  return [...ahead, ...own.map(asNamed)];
}

/** @throws Problem not_found */
export async function getLabelTemplate(stores: Stores, _call: UseCaseCall, input: { templateId: string }): Promise<NamedTemplate> {
  const builtIn = BUILT_IN_TEMPLATES.find(({ id }) => id === input.templateId);
  if (builtIn) return { ...builtIn, name: builtIn.id, own: null };
  const own = UUID.test(input.templateId) ? await stores.labelTemplates.find(input.templateId) : null;
  if (!own) throw notFound('label template');
  return asNamed(own);
}

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

export function asNamed(own: LabelTemplateRecord): NamedTemplate {
  return { id: own.id, name: own.name, template: own.template, own };
}

export interface SheetInput {
  blockId: string;
  /** By its id, or as it is. */
  template: string | LabelTemplate;
  /** Position in the block of the first tag to print, from 0. */
  from: number;
  /** Null for all that follow. */
  count: number | null;
  /** Position of the first label on its page, from 0. */
  firstPosition: number;
}

/** Labels in one file: what a thread draws in a few seconds. Our own choice. */
const MOST_LABELS = 1_000;

/** What is to be printed, and on what. @throws Problem not_found, template_unfit, command_refused */
export async function tagSheet(stores: Stores, call: UseCaseCall, input: SheetInput): Promise<PrintableBlock & { template: LabelTemplate }> {
  const printable = await printableBlock(stores, input);
  if (typeof input.template !== 'string') refuseUnfit(input.template, '#/template');
  const template = typeof input.template === 'string' ? (await getLabelTemplate(stores, call, { templateId: input.template })).template : input.template;
  if (input.firstPosition >= labelsPerPage(template)) throw new Problem('command_refused', `A page of this template has ${labelsPerPage(template)} labels, so the first one to print on cannot be number ${input.firstPosition + 1}.`);
  const inBlock = printable.block.lastSerial - printable.block.firstSerial + 1;
  if (input.from >= inBlock) throw new Problem('command_refused', `The block has ${inBlock} tags, so printing cannot begin at number ${input.from + 1}.`);
  if (printable.tags.length === 0) throw new Problem('command_refused', 'All tags that you ask for were replaced, so none of them is to be printed again. Ask for others of the block.');
  if (printable.tags.length > MOST_LABELS) throw new Problem('command_refused', `One file holds ${MOST_LABELS} labels, and you ask for ${printable.tags.length}. Ask for a part of the block at a time with \`from\` and \`count\`.`);
  return { ...printable, template };
}
