import { Module } from '@nestjs/common';
import { JoiningController } from './joining.controller.js';
import { Passphrases } from './passphrase.js';
import { PeopleRepository } from './people.repository.js';
import { PeopleService } from './people.service.js';
import { SignInLimit } from './sign-in-limit.js';
import { SessionsController } from './sessions.controller.js';

@Module({
  controllers: [SessionsController, JoiningController],
  providers: [PeopleService, PeopleRepository, Passphrases, SignInLimit],
  exports: [PeopleService],
})
export class PeopleModule {}
