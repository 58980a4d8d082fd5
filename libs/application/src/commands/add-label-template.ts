import type { LabelTemplate } from '#custody';
import type { UseCaseCall } from '../call.js';
import type { Stores } from '../ports/work.js';
import { refuseUnfit } from '../tags/unfit-template.js';
import { asNamed, type NamedTemplate } from '../queries/label-templates.js';

/** Writes down the grid of a network's own sheets. A limited key makes it for its incident. @throws Problem template_unfit */
export async function addLabelTemplate(stores: Stores, call: UseCaseCall, input: { name: string; template: LabelTemplate }): Promise<NamedTemplate> {
  refuseUnfit(input.template, '#/template');
  const own = { id: call.env.newId(), incidentId: call.context.incidentLimit, name: input.name, template: input.template, createdAtMs: call.env.nowMs, createdBy: call.context.principalId };
  await stores.labelTemplates.insert(own);
  return asNamed(own);
}
