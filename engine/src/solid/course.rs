//! One stretch of a band: plain columns between upright lines, and blocks where something is cut or laid in.

use super::band::Band;
use super::clear::{Held, box_apart, boxes_apart, cuts_apart};
use super::fault::Fault;
use super::mesh::Mesh;
use super::places::SNAP;
use super::rim::{Rim, SIDES};

/// How a stretch begins and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// Its last upright line is its first.
    Joined,
    /// With square ends.
    Square,
    /// Inside a cut from foot to top.
    Void,
}

/// A stretch of a band on the way to its mesh.
pub struct Course<'a, 'm> {
    pub(super) band: &'a Band<'a>,
    pub(super) mesh: &'m mut Mesh,
    /// Distances along the line of the upright lines, in metres.
    pub(super) places: Vec<f64>,
    pub(super) ends: Ends,
    pub(super) rims: Vec<Rim<'a>>,
    pub(super) held: Vec<Held>,
    /// For each upright line and face its points on foot and top.
    pub(super) posts: Vec<[[u32; 2]; 2]>,
    /// For each outline, chain and point of it: where its jamb meets the inner face, its crease, the outer face.
    pub(super) rows: Vec<Vec<Vec<[u32; 3]>>>,
    /// The corners of each box at foot and top.
    pub(super) hollows: Vec<[[u32; 4]; 2]>,
}

impl<'a, 'm> Course<'a, 'm> {
    pub(super) fn new(
        band: &'a Band<'a>,
        mesh: &'m mut Mesh,
        places: Vec<f64>,
        ends: Ends,
        rims: Vec<Rim<'a>>,
        held: Vec<Held>,
    ) -> Result<Course<'a, 'm>, Fault> {
        let (posts, rows, hollows) = (Vec::new(), Vec::new(), Vec::new());
        let mut course = Course { band, mesh, places, ends, rims, held, posts, rows, hollows };
        if ends == Ends::Joined {
            course.unroll()?;
        }
        course.turn_held();
        for rim in &mut course.rims {
            rim.refine(&band.shape, &course.places)?;
        }
        course.keep_apart()?;
        course.set_posts();
        course.set_rows();
        Ok(course)
    }

    /// Triangulates all.
    pub(super) fn build(mut self) -> Result<(), Fault> {
        let last = self.places.len() - 1;
        if self.ends == Ends::Void {
            return self.block([0, last]);
        }
        let ranges = self.ranges();
        let is_busy = |column: usize| {
            let [from, to] = [self.places[column] - 2.0 * SNAP, self.places[column + 1] + 2.0 * SNAP];
            ranges.iter().any(|[low, high]| *high > from && *low < to)
        };
        let busy: Vec<bool> = (0..last).map(is_busy).collect();
        let mut column = 0;
        while column < last {
            let from = column;
            if busy[column] {
                while column < last && busy[column] {
                    column += 1;
                }
                self.block([from, column])?;
            } else {
                self.plain(column);
                column += 1;
            }
        }
        if self.ends == Ends::Square {
            let cap = |[[foot_in, top_in], [foot_out, top_out]]: [[u32; 2]; 2]| [foot_out, top_out, top_in, foot_in];
            self.mesh.quad(cap(self.posts[0]));
            let [a, b, c, d] = cap(self.posts[last]);
            self.mesh.quad([d, c, b, a]);
        }
        Ok(())
    }

    /// The four faces of a column that nothing cuts.
    fn plain(&mut self, column: usize) {
        let [inner, outer] = self.posts[column];
        let [inner_on, outer_on] = self.posts[column + 1];
        self.mesh.quad([outer[0], outer_on[0], outer_on[1], outer[1]]);
        self.mesh.quad([inner_on[0], inner[0], inner[1], inner_on[1]]);
        self.bed(column, 0);
        self.bed(column, 1);
    }

    /// The foot (0) or the top (1) of a column that nothing cuts there.
    pub(super) fn bed(&mut self, column: usize, bed: usize) {
        let [inner, outer] = self.posts[column].map(|post| post[bed]);
        let [inner_on, outer_on] = self.posts[column + 1].map(|post| post[bed]);
        self.mesh.quad(if bed == 0 { [outer_on, outer, inner, inner_on] } else { [outer, outer_on, inner_on, inner] });
    }

    /// Stretches of the line that are not plain, in metres.
    fn ranges(&self) -> Vec<[f64; 2]> {
        self.rims.iter().map(Rim::range).chain(self.held.iter().map(|held| held.range)).collect()
    }

    /// Begins a closed line at an upright line that nothing meets, or inside a cut from foot to top.
    fn unroll(&mut self) -> Result<(), Fault> {
        let length = self.band.shape.line.length();
        let ranges = self.ranges();
        let clear_of = |at: f64, [low, high]: [f64; 2]| {
            let room = 2.5 * SNAP;
            (at - low + room).rem_euclid(length) > high - low + 2.0 * room
        };
        let is_clear = |at: f64| ranges.iter().all(|&range| clear_of(at, range));
        self.places.pop();
        let seam = match self.places.iter().copied().find(|&place| is_clear(place)) {
            Some(place) => Some(place),
            None => self.gap(&ranges, length).filter(|&at| is_clear(at)),
        };
        let from = match seam {
            Some(seam) => seam,
            None => {
                self.ends = Ends::Void;
                let voids = self.rims.iter().filter(|rim| rim.bites == [true; 2] && rim.is_on(0) && rim.is_on(1));
                let middle = voids.filter_map(|rim| {
                    let [right, left] = [rim.chains[0].range(), rim.chains[1].range()];
                    let middle = 0.5 * (left[1] + right[0]);
                    let others = self.rims.iter().filter(|other| other.number != rim.number).map(Rim::range);
                    let mut all = others.chain(self.held.iter().map(|held| held.range)).chain([left, right]);
                    all.all(|range| clear_of(middle, range)).then_some(middle)
                });
                middle.min_by(f64::total_cmp).ok_or(Fault::AllRound)?
            }
        };
        let from = from.rem_euclid(length);
        let next = self.places.partition_point(|place| *place < from - 1e-12);
        let mut places = self.places.split_off(next);
        places.extend(self.places.iter().map(|place| place + length));
        if self.ends == Ends::Joined {
            if places.first().is_none_or(|first| (first - from).abs() > 1e-12) {
                places.insert(0, from);
            }
            places.push(places[0] + length);
        }
        self.places = places;
        for chain in self.rims.iter_mut().flat_map(|rim| &mut rim.chains) {
            let [low, high] = chain.range();
            let middle = 0.5 * (low + high);
            chain.turned(from + (middle - from).rem_euclid(length) - middle);
        }
        Ok(())
    }

    /// The middle of the widest gap between stretches round a closed line.
    fn gap(&self, ranges: &[[f64; 2]], length: f64) -> Option<f64> {
        let after = |[_, high]: [f64; 2]| {
            let ahead = |[low, _]: &[f64; 2]| (low - high).rem_euclid(length);
            let room = ranges.iter().map(ahead).min_by(f64::total_cmp).unwrap_or(length);
            [room, high + 0.5 * room]
        };
        let inside = |at: f64| ranges.iter().any(|[low, high]| (at - low).rem_euclid(length) < high - low);
        let gaps = ranges.iter().map(|&range| after(range)).filter(|[_, middle]| !inside(*middle));
        gaps.max_by(|a, b| a[0].total_cmp(&b[0])).map(|[_, middle]| middle)
    }

    fn turn_held(&mut self) {
        let length = self.band.shape.line.length();
        let from = self.places[0];
        for held in &mut self.held {
            let turns = ((from - held.range[1]) / length).ceil() * length;
            held.range = held.range.map(|along| along + turns);
        }
    }

    fn keep_apart(&self) -> Result<(), Fault> {
        let shape = &self.band.shape;
        let ranged: Vec<(Rim<'_>, [f64; 2])> = self.rims.iter().map(|rim| (rim.clone(), rim.range())).collect();
        cuts_apart(shape, &ranged)?;
        let [from, to] = [self.places[0], self.places[self.places.len() - 1]];
        for (index, held) in self.held.iter().enumerate() {
            if self.ends == Ends::Square && (held.range[0] < from + SNAP || held.range[1] > to - SNAP) {
                return Err(Fault::BoxLeaves(held.number));
            }
            for (rim, range) in &ranged {
                if held.range[0] < range[1] + 0.1 && range[0] < held.range[1] + 0.1 {
                    box_apart(shape, (held.number, &held.held), rim)?;
                }
            }
            for other in &self.held[..index] {
                boxes_apart((other.number, &other.held), (held.number, &held.held))?;
            }
        }
        Ok(())
    }

    /// The points of the upright lines on foot and top; one where they meet.
    fn set_posts(&mut self) {
        let band = self.band;
        let (shape, length) = (&band.shape, band.shape.line.length());
        let count = self.places.len() - usize::from(self.ends == Ends::Joined);
        for place in &self.places[..count] {
            // The same place on the line gives the same point whatever turn it is counted on.
            let at = place.rem_euclid(length);
            let at = if at == 0.0 && *place > 0.0 && !shape.line.is_closed() { length } else { at };
            let [foot, top] = [band.foot.at(at), band.top.at(at)];
            self.posts.push(SIDES.map(|side| {
                let post = |level: f64| {
                    let point = shape.point(side, at, level);
                    [point.x, point.y, level]
                };
                let low = self.mesh.point(post(foot));
                if top - foot <= 1e-9 { [low, low] } else { [low, self.mesh.point(post(top))] }
            }));
        }
        if self.ends == Ends::Joined {
            self.posts.push(self.posts[0]);
        }
    }
}
