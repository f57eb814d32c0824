/* Loads of a case on the bars of a box. */
#include "box_internal.h"

#include <math.h>

#include "cw/units.h"

/* A straight-line pressure between two places of a member, given in the member's own measure. */
static void load_line(cw_frame *frame, const cw_box_line *line, double from_ft, double to_ft,
                      double from_psf, double to_psf)
{
    int bar = line->first_bar;
    if (!(to_ft > from_ft))
        return;
    const double slope = (to_psf - from_psf) / (to_ft - from_ft);
    for (int i = 0; i + 1 < line->count; i++) {
        const double a_ft = line->at_ft[i], b_ft = line->at_ft[i + 1];
        if (a_ft == b_ft)
            continue;
        const double low_ft = fmax(from_ft, fmin(a_ft, b_ft));
        const double high_ft = fmin(to_ft, fmax(a_ft, b_ft));
        if (high_ft > low_ft) {
            const double low_psf = from_psf + slope * (low_ft - from_ft);
            const double high_psf = from_psf + slope * (high_ft - from_ft);
            if (b_ft > a_ft)
                cw_frame_bar_across(frame, bar, low_ft - a_ft, high_ft - a_ft, low_psf, high_psf);
            else
                cw_frame_bar_across(frame, bar, a_ft - high_ft, a_ft - low_ft, high_psf, low_psf);
        }
        bar++;
    }
}

static void load_wall_weight(cw_frame *frame, const cw_box_line *line, double lb_per_ft)
{
    int bar = line->first_bar;
    for (int i = 0; i + 1 < line->count; i++) {
        const double rise_ft = line->at_ft[i + 1] - line->at_ft[i];
        // Weight points down: against a bar that runs up, along one that runs down.
        if (rise_ft != 0.0)
            cw_frame_bar_along(frame, bar++, -lb_per_ft * rise_ft);
    }
}

static void load_weight(cw_box_mesh *mesh, const cw_struct_box *box, double factor)
{
    const double pcf = factor * box->concrete_pcf;
    load_line(&mesh->frame, &mesh->floor, 0.0, mesh->width_ft, -pcf * box->floor_in / CW_IN_PER_FT,
              -pcf * box->floor_in / CW_IN_PER_FT);
    load_line(&mesh->frame, &mesh->top, 0.0, mesh->width_ft, pcf * box->top_in / CW_IN_PER_FT,
              pcf * box->top_in / CW_IN_PER_FT);
    load_wall_weight(&mesh->frame, &mesh->right, pcf * box->wall_in / CW_IN_PER_FT);
    load_wall_weight(&mesh->frame, &mesh->left, pcf * box->wall_in / CW_IN_PER_FT);
    const double low_ft = box->haunch_in / CW_IN_PER_FT;
    const double high_ft = box->crown_haunch_in / CW_IN_PER_FT;
    const cw_box_line *walls[2] = {&mesh->right, &mesh->left};
    for (int i = 0; i < 2; i++) {
        const int first = walls[i]->point[0], last = walls[i]->point[walls[i]->count - 1];
        mesh->frame.point[i == 0 ? first : last].load[1] -= pcf * low_ft * low_ft / 2.0;
        mesh->frame.point[i == 0 ? last : first].load[1] -= pcf * high_ft * high_ft / 2.0;
    }
}

void cw_box_load_floor(cw_box_mesh *mesh, double from_ft, double to_ft, double from_psf,
                       double to_psf)
{
    load_line(&mesh->frame, &mesh->floor, from_ft, to_ft, from_psf, to_psf);
}

void cw_box_load(cw_box_mesh *mesh, const cw_struct_box *box, const cw_struct_case *load)
{
    cw_frame_loads_clear(&mesh->frame);
    load_weight(mesh, box, load->weight);
    load_line(&mesh->frame, &mesh->top, 0.0, mesh->width_ft, load->top_psf, load->top_psf);
    load_line(&mesh->frame, &mesh->floor, 0.0, mesh->width_ft, -load->floor_psf, -load->floor_psf);
    for (int i = 0; i < load->left_count; i++)
        load_line(&mesh->frame, &mesh->left, load->left[i].from_ft, load->left[i].to_ft,
                  load->left[i].from_psf, load->left[i].to_psf);
    for (int i = 0; i < load->right_count; i++)
        load_line(&mesh->frame, &mesh->right, load->right[i].from_ft, load->right[i].to_ft,
                  load->right[i].from_psf, load->right[i].to_psf);
    for (int i = 0; i < load->patch_count; i++)
        load_line(&mesh->frame, &mesh->top, load->patches[i].from_ft, load->patches[i].to_ft,
                  load->patches[i].psf, load->patches[i].psf);
}

static void sum_force(cw_box_sum *sum, const cw_frame_point *point, double middle_ft, double right,
                      double up)
{
    sum->right_lb += right;
    sum->up_lb += up;
    sum->turn_ft_lb += up * (point->x_ft - middle_ft) - right * point->y_ft;
    sum->size_lb += fabs(right) + fabs(up);
}

cw_box_sum cw_box_load_sum(const cw_box_mesh *mesh)
{
    cw_box_sum sum = {0};
    const cw_frame *frame = &mesh->frame;
    for (int b = 0; b < frame->bars; b++) {
        const cw_frame_bar *bar = &frame->bar[b];
        for (int e = 0; e < 2; e++) {
            const double along = -bar->held[3 * e], across = -bar->held[3 * e + 1];
            sum_force(&sum, &frame->point[e == 0 ? bar->from : bar->to], mesh->width_ft / 2.0,
                      bar->c * along - bar->s * across, bar->s * along + bar->c * across);
            sum.turn_ft_lb -= bar->held[3 * e + 2];
        }
    }
    for (int i = 0; i < frame->points; i++) {
        const cw_frame_point *point = &frame->point[i];
        sum_force(&sum, point, mesh->width_ft / 2.0, point->load[0], point->load[1]);
        sum.turn_ft_lb += point->load[2];
    }
    return sum;
}
