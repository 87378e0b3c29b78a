import { Body, Controller, Param, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import { WithIfMatch } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IdPageQuery } from '../../common/page.dto.js';
import { Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { KeyInput, KeyPage, KeyResponse, NewKey } from './keys.dto.js';
import { KeysService } from './keys.service.js';

/** Who only reads makes no keys, and so sees none. */
@ApiTags('Clan')
@ApiBearerAuth()
@Needs('write')
@Controller('v1/keys')
export class KeysController {
  constructor(private readonly keys: KeysService) {}

  @ReadsPage('', KeyPage, KeyResponse, 'Keys for programs: the ones that you made, and all of them for an owner')
  list(@WithCredential() credential: Credential, @Query() query: IdPageQuery): Promise<KeyPage> {
    return this.keys.list(credential, query);
  }

  @Creates('', NewKey, 'Make a key, with no more rights than you have')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: KeyInput,
  ): Promise<NewKey> {
    return this.keys.create(credential, creation, input);
  }

  @ReadsOne(':keyId', KeyResponse, 'A key, without the key itself')
  read(@WithCredential() credential: Credential, @Param('keyId', UuidPipe) keyId: string): Promise<KeyResponse> {
    return this.keys.read(credential, keyId);
  }

  @Removes(':keyId', 'Revoke a key: it opens nothing from the next request on')
  revoke(
    @WithCredential() credential: Credential,
    @Param('keyId', UuidPipe) keyId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.keys.revoke(credential, keyId, ifMatch);
  }
}
