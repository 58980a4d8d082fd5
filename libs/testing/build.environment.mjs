// Jest's environment of every test. Jest reads modules anew for every test file; the program under test does not need that: its
// servers are loaded from the build once in each worker, by Node itself, which makes a run of all files about twice as fast.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { TestEnvironment } from 'jest-environment-node';

export default class BuildEnvironment extends TestEnvironment {
  constructor(config, context) {
    super(config, context);
    this.dist = join(config.globalConfig.rootDir, 'dist');
  }

  async setup() {
    await super.setup();
    /** A module of dist/ by its path there, in Node's own cache: one copy for all test files of this worker. */
    this.global.wracklineBuild = (path) => import(pathToFileURL(join(this.dist, path)).href);
  }
}
