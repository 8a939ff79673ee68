//! The frame of a ring, or of some of its poles: nodes, members, links.

use super::notch::{half_length, left};
use super::{Fault, Feet, Model, Passing};
use crate::solve::frame::{Factorised, Fault as FrameFault, Frame, Link, Member, Node, Section, Six, Support};
use crate::solve::space::{Vector, cross, dot, moved, size, way};
use crate::units::Length;

/// Which parts of a ring stand.
#[derive(Clone, Debug)]
pub(super) struct Parts {
    /// Each pole.
    pub stands: Vec<bool>,
    /// Whether each pole rests on the one below it.
    pub joined: Vec<bool>,
    pub feet: Feet,
    /// A pole on a prop where it rests, and whether the head of the prop holds it sideways.
    pub prop: Option<(usize, bool)>,
}

/// The nodes and members of one pole.
#[derive(Clone, Debug)]
pub(super) struct Row {
    /// Along the pole from its butt, node by node.
    pub stops: Vec<f64>,
    /// Its first node and its first member.
    pub node: usize,
    pub member: usize,
    /// Which of its nodes are support, middle of the span, carry, rest.
    pub at: [usize; 4],
    /// The link that holds its foot, and its axes: along the pole, across it level, and square to both.
    pub foot: usize,
    pub axes: [Vector; 3],
    /// The link where it rests, and the axes of it.
    pub rests: Option<usize>,
}

/// A frame and whose parts are whose.
#[derive(Clone, Debug)]
pub(super) struct Built {
    pub frame: Frame,
    pub rows: Vec<Option<Row>>,
}

/// How much stiffer than a pole a foot is that holds fast.
const FAST: f64 = 1e3;

fn unit(way: Vector) -> Vector {
    let long = size(way);
    way.map(|part| part / long)
}

impl Model {
    pub(super) fn build(&self, parts: &Parts) -> Result<Built, Fault> {
        let mut frame = Frame::default();
        let rows = (0..self.lies.len())
            .map(|place| parts.stands[place].then(|| self.row(&mut frame, place, parts.feet)))
            .collect();
        let mut built = Built { frame, rows };
        for place in (0..self.lies.len()).filter(|&place| parts.joined[place]) {
            self.join(&mut built, place)?;
        }
        if let Some((place, tied)) = parts.prop {
            self.prop(&mut built, place, tied);
        }
        Ok(built)
    }

    /// Puts a prop under the place where a pole rests; tied, its head holds the pole sideways too.
    fn prop(&self, built: &mut Built, place: usize, tied: bool) {
        let Some(row) = &built.rows[place] else { return };
        let (node, ground) = (row.node + row.at[3], built.frame.nodes.len());
        built.frame.nodes[node].support[2] = Support::Fast;
        if tied {
            let contact = built.frame.nodes[node].at;
            let stiffness = [0.0, self.held_across(place), 0.0, 0.0, 0.0, 0.0];
            built.frame.nodes.push(Node::held(contact, [true; 6]));
            built.frame.links.push(Link { nodes: [ground, node], contact, axes: row.axes, stiffness });
        }
    }

    fn held_across(&self, place: usize) -> f64 {
        let [support, _, _, tip] = self.marks[place];
        let diameter = self.diameter(place, support);
        FAST * self.wood.young.in_pa() * Section::Round { first: diameter, last: diameter }.at(0.0).area / tip
    }

    fn row(&self, frame: &mut Frame, place: usize, feet: Feet) -> Row {
        let (stops, at) = self.stops(place);
        let (node, member) = (frame.nodes.len(), frame.members.len());
        let points: Vec<Vector> = stops.iter().map(|&along| self.at(place, along)).collect();
        frame.nodes.extend(points.iter().map(|&at| Node::free(at)));
        let moduli = [self.wood.young.in_pa(), self.wood.shear.in_pa()];
        for (index, pair) in stops.windows(2).enumerate() {
            let [first, last] = [pair[0], pair[1]].map(|along| self.diameter(place, along));
            let nodes = [node + index, node + index + 1];
            let whole = Member::new(nodes, [0.0, 0.0, 1.0], moduli, Section::Round { first, last });
            let notched = self.notched(whole, (place, [index, index + 1]), &at, &stops);
            frame.members.push(notched);
        }
        let foot = points[at[0]];
        let held = matches!(feet, Feet::Held);
        let fast = [held, held, true, false, false, false];
        frame.nodes[node + at[0]] = Node::held(foot, fast);
        let ground = frame.nodes.len();
        frame.nodes.push(Node::held(foot, [true; 6]));
        let along = unit(self.lies[place].way(0.0));
        let across = unit(cross([0.0, 0.0, 1.0], along));
        let axes = [along, across, cross(along, across)];
        let stiffness = self.foot(place, moduli, held);
        frame.links.push(Link { nodes: [ground, node + at[0]], contact: foot, axes, stiffness });
        Row { stops, node, member, at, foot: frame.links.len() - 1, axes, rests: None }
    }

    /// What holds a foot besides the wall below it.
    fn foot(&self, place: usize, [young, shear]: [f64; 2], held: bool) -> Six {
        let [support, _, _, tip] = self.marks[place];
        let diameter = self.diameter(place, support);
        let section = Section::Round { first: diameter, last: diameter }.at(0.0);
        let across = if held { 0.0 } else { self.held_across(place) };
        let roll = FAST * shear * section.twist / tip;
        let turn = match self.joints.passing {
            Passing::Touching { .. } => 0.0,
            Passing::Plumb { .. } => FAST * young * section.about_y / tip,
        };
        [0.0, across, 0.0, roll, 0.0, turn]
    }

    /// The member with what the notches at its ends have cut away.
    fn notched(&self, member: Member, (place, ends): (usize, [usize; 2]), at: &[usize; 4], stops: &[f64]) -> Member {
        let mut member = member;
        let long = stops[ends[1]] - stops[ends[0]];
        for (end, stop) in ends.into_iter().enumerate() {
            let cut = if stop == at[2] {
                self.cut(place, false)
            } else if stop == at[3] {
                self.cut(place, true)
            } else {
                self.housed(place, stops[stop])
            };
            let Some((section, half)) = cut else { continue };
            // No more than the whole stub beyond a rest, and less than half of a member between two notches.
            let most = if ends[0] == at[3] { 1.0 } else { 0.45 };
            let share = (half / long).min(most);
            member = match end {
                0 => member.with_stretch(0.0, share, section),
                _ => member.with_stretch(1.0 - share, 1.0, section),
            };
        }
        member
    }

    /// The section left by the notch where a pole rests, or where it carries, and half its length along the pole.
    fn cut(&self, place: usize, rests: bool) -> Option<(Section, f64)> {
        let upper = if rests { place } else { self.layout.above(place) };
        let lower = self.layout.below(upper);
        let [on_upper, on_lower] = [self.marks[upper][2], self.marks[lower][1]];
        let depth = self.layout.rafters[upper].notch.in_m()
            * if rests { self.joints.upper_share } else { 1.0 - self.joints.upper_share };
        if depth <= 0.0 {
            return None;
        }
        let ways = [(upper, on_upper), (lower, on_lower)]
            .map(|(place, along)| unit(self.lies[place].way(along + self.lies[place].ends[0])));
        let sine = size(cross(ways[0], ways[1]));
        let [own, other] =
            if rests { [(upper, on_upper), (lower, on_lower)] } else { [(lower, on_lower), (upper, on_upper)] }
                .map(|(place, along)| self.diameter(place, along));
        Some((left(own, depth), half_length(depth, other, sine)))
    }

    /// The section left by the housing for the rafter of a second ring, where a stop is its place, and half its length.
    fn housed(&self, place: usize, along: f64) -> Option<(Section, f64)> {
        let seat = self.seats.get(place).filter(|seat| seat.along == along && seat.depth > 0.0)?;
        Some((left(self.diameter(place, along), seat.depth), seat.half))
    }

    /// Half the length along a pole of the notch where it rests, or where it carries; zero where none is cut.
    #[must_use]
    pub fn notch_reach(&self, place: usize, rests: bool) -> Length {
        Length::m(self.cut(place, rests).map_or(0.0, |(_, half)| half))
    }

    /// Joins a pole to the one on which it rests.
    fn join(&self, built: &mut Built, place: usize) -> Result<(), Fault> {
        let below = self.layout.below(place);
        let (Some(upper), Some(lower)) = (&built.rows[place], &built.rows[below]) else { return Ok(()) };
        let nodes = [lower.node + lower.at[2], upper.node + upper.at[3]];
        let points = nodes.map(|node| built.frame.nodes[node].at);
        let link = match self.joints.passing {
            Passing::Touching { push, tie } => {
                let rafter = &self.layout.rafters[place];
                let depth = (1.0 - self.joints.upper_share) * rafter.notch.in_m() + 0.5 * rafter.bedding.in_m();
                let over = 0.5 * self.diameter(below, self.marks[below][1]) - depth;
                let beside = self.lies[place].way(self.marks[place][2] + self.lies[place].ends[0]);
                let [push, tie] = [push, tie].map(crate::units::LineLoad::in_n_m);
                let share = over / size(way(points[0], points[1]));
                Link::along_normal(nodes, points, share, beside, [push, tie, tie, 0.0, 0.0, 0.0])
                    .ok_or(Fault::Size("poles whose axes lie apart where they cross"))?
            }
            Passing::Plumb { push } => Link {
                nodes,
                contact: moved(points[0], way(points[0], points[1]), 0.5),
                axes: [[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]],
                stiffness: [push.in_n_m(), 0.0, 0.0, 0.0, 0.0, 0.0],
            },
        };
        built.frame.links.push(link);
        let rests = built.frame.links.len() - 1;
        if let Some(upper) = &mut built.rows[place] {
            upper.rests = Some(rests);
        }
        Ok(())
    }
}

impl Built {
    /// Lays out and factorises the frame; a mechanism is told by its pole.
    pub fn factorise(&self) -> Result<Factorised<'_>, Fault> {
        self.frame.factorise().map_err(|fault| match fault {
            FrameFault::Mechanism { node, direction } => Fault::Mechanism { pole: self.pole(node), direction },
            fault => Fault::Frame(fault),
        })
    }

    fn pole(&self, node: usize) -> usize {
        self.rows.iter().rposition(|row| row.as_ref().is_some_and(|row| row.node <= node)).unwrap_or(0)
    }
}

impl Row {
    /// Forces that a foot exerts on the pole: along it in plan, inwards; across it; up. `force` is that of the ground on the
    /// node, `link` that in the link of the foot.
    pub fn foot_forces(&self, force: &Six, link: &Six) -> [f64; 3] {
        let mut whole: Vector = [force[0], force[1], force[2]];
        for (axis, pull) in self.axes.iter().zip(link) {
            whole = moved(whole, *axis, -pull);
        }
        let along = self.axes[0];
        let level = unit([along[0], along[1], 0.0]);
        [dot(whole, level), dot(whole, self.axes[1]), whole[2]]
    }
}
