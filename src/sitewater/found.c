#include "sitewater_internal.h"

const char *const cw_sitewater_found[] = {"found", "none", NULL};
