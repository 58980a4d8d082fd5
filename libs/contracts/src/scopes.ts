/** What a key may do. Each route asks for exactly one, or is public. */
export const SCOPES = ['incident:read', 'incident:write', 'intake:write', 'item:read', 'care:write', 'plan:write', 'station:work', 'custody:write', 'household:read', 'household:write', 'report:read', 'climate:read', 'climate:write', 'file:read', 'file:write', 'privacy:manage', 'keys:manage'] as const;
export type Scope = (typeof SCOPES)[number];
