import { z } from 'zod';
import { instant, PageQuery, uuid } from '../primitives.js';

export const AuditEntryListQuery = PageQuery;

export const AuditEntryBody = z
  .strictObject({
    id: uuid,
    keyId: uuid.describe('The API key that sent the command.'),
    operation: z.string().describe('The operation by its id in this document.'),
    subjectKind: z.string().describe('The collection of the address under which the thing stands that the command was about.'),
    subjectId: uuid.nullable().describe('That thing; what the command made, where it made something new.'),
    outcome: z.enum(['done', 'read']),
    requestId: z.string().describe('As in the header x-request-id of the answer.'),
    at: instant.describe('When it was carried out, by the clock of the service.'),
  })
  .meta({
    id: 'AuditEntry',
    description: 'That a command was carried out, or (`read`) that personal data of a household were looked at: by whom, on what, when. Neither what was sent nor what was answered.',
    examples: [
      {
        id: '019e0b5c-1f42-7200-8a11-1f2e3d4c5b01', keyId: '01970c1e-5a42-7200-8a11-1f2e3d4c5b01', operation: 'takeInItem', subjectKind: 'items', subjectId: '019e0b5c-1f40-7d3a-9c21-5b6c7d8e9f02',
        outcome: 'done', requestId: '7c9e6679-7425-40de-944b-e07fc1f90ae7', at: '2026-05-09T07:12:30.000Z',
      },
    ],
  });
