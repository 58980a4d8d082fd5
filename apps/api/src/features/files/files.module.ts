import { Module } from '@nestjs/common';
import { FilesController } from './files.controller.js';
import { SmallFilesController } from './small-files.controller.js';
import { TusUploads } from './tus-uploads.js';
import { UploadsController } from './uploads.controller.js';

@Module({ controllers: [UploadsController, SmallFilesController, FilesController], providers: [TusUploads] })
export class FilesModule {}
