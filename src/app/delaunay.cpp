/* The Voronoi diagram of the places (S. Fortune's sweep, in Boost.Polygon) has a vertex for each
 * Delaunay triangle, or for each ring of places on one circle. */
#include "delaunay.h"

#include <boost/polygon/voronoi.hpp>
#include <new>
#include <vector>

namespace {

using diagram = boost::polygon::voronoi_diagram<double>;

struct output {
    const cw_lattice_place *places;
    int (*faces)[3];
    int count, room;
};

/* Cuts ears off the ring, which turns left, until nothing is left of it.  Three places in a row are no
 * ear. */
bool take_ring(output &out, std::vector<int> &ring)
{
    while (ring.size() >= 3) {
        const std::size_t size = ring.size();
        std::size_t tip = 0;
        while (tip < size && cw_lattice_turn(out.places[ring[(tip + size - 1) % size]], out.places[ring[tip]],
                                             out.places[ring[(tip + 1) % size]]) <= 0)
            tip++;
        if (tip == size || out.count == out.room)
            return false;
        int *face = out.faces[out.count++];
        for (std::size_t k = 0; k < 3; k++)
            face[k] = ring[(tip + size - 1 + k) % size];
        ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(tip));
    }
    return true;
}

} // namespace

extern "C" int cw_delaunay(const cw_lattice_place *places, int count, int (*faces)[3])
{
    try {
        boost::polygon::voronoi_builder<int> builder;
        for (int i = 0; i < count; i++)
            builder.insert_point(places[i].x, places[i].y);
        diagram voronoi;
        builder.construct(&voronoi);
        output out = {places, faces, 0, 2 * count};
        std::vector<int> ring;
        for (const diagram::vertex_type &vertex : voronoi.vertices()) {
            ring.clear();
            const diagram::edge_type *edge = vertex.incident_edge();
            do {
                ring.push_back(static_cast<int>(edge->cell()->source_index()));
                edge = edge->rot_next();
            } while (edge != vertex.incident_edge());
            if (!take_ring(out, ring))
                return CW_DELAUNAY_NOT_PLANE;
        }
        return out.count;
    } catch (const std::bad_alloc &) {
        return CW_DELAUNAY_NO_MEMORY;
    }
}
