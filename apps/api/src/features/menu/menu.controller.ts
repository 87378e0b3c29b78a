import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { MenuCallInput, MenuCallPage, MenuCallResponse, MenuQuery } from './menu.dto.js';
import { MenuService } from './menu.service.js';

@ApiTags('Own book')
@ApiBearerAuth()
@Controller('v1/menu-calls')
export class MenuController {
  constructor(private readonly menu: MenuService) {}

  @ReadsPage('', MenuCallPage, MenuCallResponse, 'The installed menu: calls that the clan owns, in its own names')
  list(@WithCredential() credential: Credential, @Query() query: MenuQuery): Promise<MenuCallPage> {
    return this.menu.list(credential, query);
  }

  @Creates('', MenuCallResponse, 'Install a call')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: MenuCallInput,
  ): Promise<MenuCallResponse> {
    return this.menu.create(credential, creation, input);
  }

  @ReadsOne(':menuCallId', MenuCallResponse, 'A call of the menu')
  read(
    @WithCredential() credential: Credential,
    @Param('menuCallId', UuidPipe) menuCallId: string,
  ): Promise<MenuCallResponse> {
    return this.menu.read(credential, menuCallId);
  }

  @Changes(':menuCallId', MenuCallInput, MenuCallResponse, 'Change a call of the menu')
  change(
    @WithCredential() credential: Credential,
    @Param('menuCallId', UuidPipe) menuCallId: string,
    @WithChange() change: Change,
  ): Promise<MenuCallResponse> {
    return this.menu.change(credential, menuCallId, change);
  }

  @Removes(':menuCallId', 'Remove a call from the menu')
  remove(
    @WithCredential() credential: Credential,
    @Param('menuCallId', UuidPipe) menuCallId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.menu.remove(credential, menuCallId, ifMatch);
  }
}
