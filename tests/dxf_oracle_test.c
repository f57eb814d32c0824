/* Every DXF of two demos read by ezdxf, a general reader (tests/oracle/dxf_oracle.py), where it is installed: no error, nothing to
 * fix, and the cut section measures what the job says. */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#define PYTHON "/usr/bin/python3"

enum { COMMAND_MAX = 1024 };

static void near(double got, double wanted)
{
    if (fabs(got - wanted) > 1e-3)
        fail_msg("%.4f, wanted %.4f", got, wanted);
}

/* Outside width of all barrels and height of the box, in the unit of the typical section: inches. */
static void read_demo(const char *demo, double width_in, double height_in)
{
    char folder[] = "dxf-oracle-XXXXXX", command[COMMAND_MAX], name[200], release[20];
    assert_non_null(mkdtemp(folder));
    snprintf(command, sizeof command, "%s export %s/demo/%s.yaml --as dxf -o %s >/dev/null 2>&1", CW_PROGRAM, CW_ROOT, demo, folder);
    const int code = system(command);
    assert_true(code != -1);
    snprintf(command, sizeof command, PYTHON " %s/tests/oracle/dxf_oracle.py %s/*.dxf", CW_ROOT, folder);
    FILE *stream = popen(command, "r");
    assert_non_null(stream);
    int errors, fixes, texts, files = 0;
    bool section = false;
    double box[4];
    while (fscanf(stream, "%199s %19s %d %d %d %lf %lf %lf %lf", name, release, &errors, &fixes, &texts, &box[0], &box[1], &box[2],
                  &box[3]) == 9) {
        assert_string_equal(release, "AC1009");
        if (errors > 0 || fixes > 0)
            fail_msg("%s: %d errors, %d fixes", name, errors, fixes);
        assert_true(texts > 0);
        if (strcmp(name, "section.dxf") == 0) {
            section = true;
            near(box[2] - box[0], width_in);
            near(box[3] - box[1], height_in);
        }
        files++;
    }
    assert_int_equal(pclose(stream), 0);
    assert_true(section && files >= 10);
    snprintf(command, sizeof command, "rm -r %s", folder);
    assert_int_equal(system(command), 0);
}

static void a_general_reader_takes_them(void **state)
{
    (void)state;
    if (system(PYTHON " -c 'import ezdxf' >/dev/null 2>&1") != 0)
        skip();
    read_demo("farm-road", 10 * 12 + 2 * 10, 10 + 5 * 12 + 11);
    read_demo("twin-hood", 2 * (12 * 12 + 2 * 12) + 6, 14 + 10 * 12 + 14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_general_reader_takes_them)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
