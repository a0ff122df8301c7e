/*
 * The least that is still of use: stuck-at and freeze, guards of travel, and no description, which the bench has to have from
 * a build with it. Slow where the checksum is reckoned bit by bit.
 */
#ifndef SNAG_WITH_DESCRIPTION
#define SNAG_WITH_DESCRIPTION 0
#endif
#ifndef SNAG_WITH_SPIKE
#define SNAG_WITH_SPIKE 0
#endif
#ifndef SNAG_WITH_DROPOUT
#define SNAG_WITH_DROPOUT 0
#endif
#ifndef SNAG_KEPT
#define SNAG_KEPT 0
#endif
#ifndef SNAG_CRC_TABLE
#define SNAG_CRC_TABLE 0
#endif
#include "small.h"
