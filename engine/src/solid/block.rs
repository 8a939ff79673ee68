//! A stretch of a band where something is cut out or laid in: both faces and the beds triangulated round it.

use kurbo::Point;

use super::course::{Course, Ends};
use super::fault::Fault;
use super::fill::fill;
use super::places::SNAP;
use super::rim::{Rim, SIDES};
use crate::curve::{Depth, Jamb};

/// A mark on the edge of a face at a bed.
#[derive(Clone, Copy, PartialEq)]
enum Mark {
    /// An upright line.
    Post,
    /// Where a cut begins.
    Begin,
    /// Where a cut ends.
    End,
}

/// A face of a block, spread out flat: distance along the line and level, in metres.
#[derive(Default)]
struct Sheet {
    points: Vec<[f64; 2]>,
    ids: Vec<u32>,
    sides: Vec<[usize; 2]>,
    lines: Vec<[usize; 2]>,
}

impl Sheet {
    fn point(&mut self, at: [f64; 2], id: u32) -> usize {
        self.points.push(at);
        self.ids.push(id);
        self.points.len() - 1
    }

    fn side(&mut self, from: usize, to: usize) {
        if from != to {
            self.sides.push([from, to]);
        }
    }
}

impl Course<'_, '_> {
    /// The points of each outline on both faces and on its crease; of a niche on one face and on its bottom.
    pub(super) fn set_rows(&mut self) {
        let shape = &self.band.shape;
        let mut rows = Vec::new();
        for rim in &self.rims {
            let station = rim.cut.station;
            let right = -station.axis.turn_90();
            let in_plan = |x: f64, y: f64| station.point + station.axis * x + right * y;
            let mut chains = Vec::new();
            for chain in &rim.chains {
                let mut of_chain = Vec::with_capacity(chain.spots.len());
                for spot in &chain.spots {
                    let level = spot.at[1];
                    let mut at = |point: Point| self.mesh.point([point.x, point.y, level]);
                    let mut on_face = |face: usize| {
                        let point = shape.point(SIDES[face], spot.along[face] - chain.turn, level);
                        ((point - station.point).dot(right), at(point))
                    };
                    let jamb: Jamb = rim.jamb(spot.at);
                    of_chain.push(match rim.cut.depth {
                        Depth::Into { bottom, .. } => {
                            let own = usize::from(rim.is_on(1));
                            let (face, floor) = (on_face(own).1, at(in_plan(jamb.x, bottom)));
                            if own == 0 { [face, floor, floor] } else { [floor, floor, face] }
                        }
                        Depth::Through { splay, .. } => {
                            let ((low, inner), (high, outer)) = (on_face(0), on_face(1));
                            let crease = if splay == [0.0; 2] || jamb.crease < low + SNAP {
                                inner
                            } else if jamb.crease > high - SNAP {
                                outer
                            } else {
                                at(in_plan(jamb.x, jamb.crease))
                            };
                            [inner, crease, outer]
                        }
                    });
                }
                chains.push(of_chain);
            }
            rows.push(chains);
        }
        self.rows = rows;
        for held in &self.held {
            let hollow = held.held.hollow(self.mesh, held.on_bed);
            self.hollows.push(hollow);
        }
    }

    /// Both faces, the beds and the sides of what is cut, between two upright lines.
    pub(super) fn block(&mut self, [from, to]: [usize; 2]) -> Result<(), Fault> {
        let is_void = self.ends == Ends::Void;
        let [low, high] = [self.places[from], self.places[to]];
        let is_here = |[from, to]: [f64; 2]| is_void || (from < high && to > low);
        let here: Vec<usize> = (0..self.rims.len()).filter(|&rim| is_here(self.rims[rim].range())).collect();
        let boxed: Vec<usize> = (0..self.held.len()).filter(|&held| is_here(self.held[held].range)).collect();
        let mut edges = [Vec::new(), Vec::new()];
        for face in 0..2 {
            self.sheet(face, [from, to], &here, &mut edges)?;
        }
        for (bed, mut edges) in edges.into_iter().enumerate() {
            let is_whole = !here.iter().any(|&rim| self.rims[rim].bites[bed])
                && !boxed.iter().any(|&held| self.held[held].on_bed[bed]);
            if is_whole && !is_void {
                (from..to).for_each(|column| self.bed(column, bed));
                continue;
            }
            let is_round = self.ends == Ends::Joined && to - from == self.places.len() - 1;
            if !is_void && !is_round {
                edges.extend([from, to].map(|post| [self.posts[post][0][bed], self.posts[post][1][bed]]));
            }
            self.bites(bed, &here, &mut edges);
            for &held in boxed.iter().filter(|&&held| self.held[held].on_bed[bed]) {
                let ring = self.hollows[held][bed];
                edges.extend((0..4).map(|corner| [ring[corner], ring[(corner + 1) % 4]]));
            }
            self.fill_flat(&edges, bed == 0, |[x, y, _]| [x, y])?;
        }
        here.into_iter().try_for_each(|rim| self.reveal(rim))
    }

    /// What the cuts that bite a bed leave as its edge between the faces.
    fn bites(&self, bed: usize, here: &[usize], edges: &mut Vec<[u32; 2]>) {
        for &rim in here.iter().filter(|&&rim| self.rims[rim].bites[bed]) {
            let jambs = self.rims[rim].bitten(bed).map(|(chain, spot)| self.rows[rim][chain][spot]);
            edges.extend(jambs.iter().flat_map(|&[inner, crease, outer]| [[inner, crease], [crease, outer]]));
            if matches!(self.rims[rim].cut.depth, Depth::Into { .. }) {
                edges.push(jambs.map(|jamb| jamb[1]));
            }
        }
        edges.retain(|[from, to]| from != to);
    }

    /// Fills a flat patch bounded by edges between points of the mesh, turned over when it is seen from the other side.
    fn fill_flat(
        &mut self,
        edges: &[[u32; 2]],
        turned: bool,
        flat: impl Fn([f64; 3]) -> [f64; 2],
    ) -> Result<(), Fault> {
        let mut ids: Vec<u32> = edges.iter().flatten().copied().collect();
        ids.sort_unstable();
        ids.dedup();
        let points: Vec<[f64; 2]> = ids.iter().map(|&id| flat(self.mesh.points[id as usize])).collect();
        let place = |id: u32| ids.partition_point(|&other| other < id);
        let sides: Vec<[usize; 2]> = edges.iter().map(|edge| edge.map(place)).collect();
        for [a, b, c] in fill(&points, &sides, &[])? {
            let [a, b, c] = [ids[a], ids[b], ids[c]];
            self.mesh.triangle(if turned { [c, b, a] } else { [a, b, c] });
        }
        Ok(())
    }

    /// The sides of a cut between the faces, or between face and bottom, and the bottom.
    fn reveal(&mut self, rim: usize) -> Result<(), Fault> {
        let rows = std::mem::take(&mut self.rows[rim]);
        let is_closed = self.rims[rim].is_closed();
        let mut floor = Vec::new();
        for row in &rows {
            let count = row.len();
            for index in 0..if is_closed { count } else { count - 1 } {
                let ([inner, crease, outer], [inner_on, crease_on, outer_on]) = (row[index], row[(index + 1) % count]);
                self.mesh.quad([outer, outer_on, crease_on, crease]);
                self.mesh.quad([crease, crease_on, inner_on, inner]);
                floor.push([crease, crease_on]);
            }
        }
        let cut = self.rims[rim].cut;
        if matches!(cut.depth, Depth::Into { .. }) {
            for bed in (0..2).filter(|&bed| self.rims[rim].bites[bed]) {
                floor.push(self.rims[rim].bitten(bed).map(|(chain, spot)| rows[chain][spot][1]));
            }
            let (origin, axis) = (cut.station.point, cut.station.axis);
            let turned = self.rims[rim].is_on(0);
            self.fill_flat(&floor, turned, |[x, y, level]| [(Point::new(x, y) - origin).dot(axis), level])?;
        }
        self.rows[rim] = rows;
        Ok(())
    }

    /// One face of a block; its edges on foot and top are added to those of the beds.
    fn sheet(
        &mut self,
        face: usize,
        [from, to]: [usize; 2],
        here: &[usize],
        edges: &mut [Vec<[u32; 2]>; 2],
    ) -> Result<(), Fault> {
        let mut sheet = Sheet::default();
        let mut stops: Vec<(usize, usize)> = Vec::new();
        let mut marks = [Vec::new(), Vec::new()];
        for &index in here.iter().filter(|&&rim| self.rims[rim].is_on(face)) {
            self.outline(face, index, &mut sheet, &mut stops, &mut marks);
        }
        for (bed, marks) in marks.iter_mut().enumerate() {
            let cuts = marks.clone();
            for post in from..=to {
                let along = self.places[post];
                if cuts.iter().any(|(at, ..)| f64::abs(at - along) < SNAP) {
                    continue;
                }
                let [foot, top] = self.posts[post][face];
                let met = (bed == 1 && foot == top).then(|| sheet.ids.iter().position(|&id| id == foot)).flatten();
                let level = [self.band.foot, self.band.top][bed].at(along);
                let place = met.unwrap_or_else(|| sheet.point([along, level], self.posts[post][face][bed]));
                marks.push((along, Mark::Post, place));
                stops.push((post, place));
            }
            marks.sort_by(|a, b| a.0.total_cmp(&b.0));
            let found = self.along_bed(marks, &mut sheet)?;
            edges[bed].extend(found);
        }
        let is_void = self.ends == Ends::Void;
        stops.sort_by(|a, b| a.0.cmp(&b.0).then(sheet.points[a.1][1].total_cmp(&sheet.points[b.1][1])));
        for pair in stops.windows(2).filter(|pair| pair[0].0 == pair[1].0) {
            let post = pair[0].0;
            if !is_void && (post == from || post == to) {
                sheet.side(pair[0].1, pair[1].1);
            } else {
                sheet.lines.push([pair[0].1, pair[1].1]);
            }
        }
        for [a, b, c] in fill(&sheet.points, &sheet.sides, &sheet.lines)? {
            let [a, b, c] = [a, b, c].map(|place| sheet.ids[place]);
            self.mesh.triangle(if face == 1 { [a, b, c] } else { [c, b, a] });
        }
        Ok(())
    }

    /// Adds an outline to a face, with the upright lines that it ends and the marks that it sets on the beds.
    fn outline(
        &self,
        face: usize,
        index: usize,
        sheet: &mut Sheet,
        stops: &mut Vec<(usize, usize)>,
        marks: &mut [Vec<(f64, Mark, usize)>; 2],
    ) {
        let rim: &Rim<'_> = &self.rims[index];
        let row_part = 2 * face;
        let mut firsts = Vec::new();
        for (chain, row) in rim.chains.iter().zip(&self.rows[index]) {
            let first = sheet.points.len();
            firsts.push(first);
            for (spot, ids) in chain.spots.iter().zip(row) {
                let place = sheet.point([spot.along[face], spot.at[1]], ids[row_part]);
                if place > first {
                    sheet.side(place - 1, place);
                }
                if let Some(line) = spot.lines[face] {
                    stops.push((line, place));
                }
            }
            if rim.is_closed() {
                sheet.side(sheet.points.len() - 1, first);
            }
        }
        for (bed, marks) in marks.iter_mut().enumerate().filter(|(bed, _)| rim.bites[*bed]) {
            let places = rim.bitten(bed).map(|(chain, spot)| firsts[chain] + spot);
            for (place, mark) in places.into_iter().zip([Mark::Begin, Mark::End]) {
                marks.push((sheet.points[place][0], mark, place));
            }
        }
    }

    /// Edges of a face along a bed, outside of the cuts that bite it.
    fn along_bed(&self, marks: &[(f64, Mark, usize)], sheet: &mut Sheet) -> Result<Vec<[u32; 2]>, Fault> {
        let mut edges = Vec::new();
        let mut is_cut = self.ends == Ends::Void;
        let mut last: Option<usize> = None;
        for &(_, mark, place) in marks {
            if mark == Mark::End {
                if !is_cut {
                    return Err(Fault::Tangled);
                }
                is_cut = false;
                last = Some(place);
                continue;
            }
            if is_cut {
                if mark == Mark::Begin {
                    return Err(Fault::Tangled);
                }
                continue;
            }
            if let Some(before) = last {
                sheet.side(before, place);
                edges.push([sheet.ids[before], sheet.ids[place]]);
            }
            last = Some(place);
            if mark == Mark::Begin {
                is_cut = true;
                last = None;
            }
        }
        Ok(edges)
    }
}
