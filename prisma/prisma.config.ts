import { defineConfig } from 'prisma/config';

// Only `generate` and `validate` are used: migrations are applied by our own runner (libs/persistence/src/migrate).
// There is no URL here, so no command of the tool can reach a database.
export default defineConfig({ schema: 'schema.prisma' });
