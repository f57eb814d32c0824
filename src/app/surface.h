/** @file
 * A triangulated surface from a LandXML file. */
#ifndef CW_APP_SURFACE_H
#define CW_APP_SURFACE_H

#include <stdbool.h>
#include <stddef.h>

#include "cw/ground.h"

enum { CW_SURFACE_BYTES_MAX = 32 * 1024 * 1024 };

/** Does the name of a ground file say that it is LandXML?  It ends in .xml or .landxml, in any
 * case. */
bool cw_surface_is_named(const char *file);

/** The one TIN surface of the LandXML text (1.0, 1.1 or 1.2; the namespace is ignored), in
 * international feet. Invisible faces (i="1") are left out.  Coordinates and heights are in the
 * file's linear unit: foot, USSurveyFoot or meter; an elevationUnit is not read.  No network, no
 * document type, no entities.  NULL after a fault, which names the line of the file. */
const cw_ground_mesh *cw_surface_read(const char *bytes, size_t length, const char *file,
                                      cw_arena *arena, cw_diags *diags);

#endif
