import type { CallContext, OutboxMessage, UnitOfWork } from '#application';

/** Does the counted effect and marks the row done, in one transaction; answers whether this run did it. */
export function effect(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext): Promise<boolean>;
