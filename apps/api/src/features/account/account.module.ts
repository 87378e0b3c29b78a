import { Module } from '@nestjs/common';
import { InvitationsModule } from '../invitations/invitations.module.js';
import { KeysModule } from '../keys/keys.module.js';
import { MembersModule } from '../members/members.module.js';
import { PeopleModule } from '../people/people.module.js';
import { RoundReportsModule } from '../round-reports/round-reports.module.js';
import { AccountController } from './account.controller.js';
import { ElsewhereController } from './elsewhere.controller.js';
import { OpenId } from './open-id.js';
import { AccountService } from './account.service.js';

@Module({
  imports: [PeopleModule, MembersModule, KeysModule, InvitationsModule, RoundReportsModule],
  controllers: [ElsewhereController, AccountController],
  providers: [AccountService, OpenId],
})
export class AccountModule {}
