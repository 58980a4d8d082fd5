// The effect that the messaging tests count: one household per outbox row and run, written in the transaction that
// marks the row done. Its code would be another one at every run, so that a doubled effect shows as two rows.
import { randomUUID } from 'node:crypto';

/** @returns {Promise<boolean>} whether this run was the one that did it */
export function effect(unitOfWork, message, context) {
  return unitOfWork.write(context, async (stores) => {
    if (!(await stores.outbox.markDone(message.id))) return false;
    const id = randomUUID();
    const household = { networkId: context.networkId, incidentId: message.incidentId, id, code: `${message.id}/${id}`, language: 'en', version: 1, createdAtMs: Date.now(), updatedAtMs: Date.now() };
    await stores.households.insert(household, { name: 'Test household', phone: '', email: '', address: '' });
    return true;
  });
}
