//! The equations of a frame: which movement is which unknown, and the matrix laid out column by column.
//!
//! Nodes are put in order, not movements: all unknowns of a node stand together, and those of two joined nodes fill a block.

use crate::solve::sparse::{Columns, NoFactor, order};

use super::small::{Square, Twelve};

/// Marks a movement that is no unknown.
pub(super) const HELD: usize = usize::MAX;

/// Unknowns and where each term of the matrix stands.
#[derive(Debug)]
pub(super) struct Equations {
    /// The unknown of each movement of each node, or `HELD`.
    pub unknowns: Vec<[usize; 6]>,
    /// How many unknowns there are.
    pub count: usize,
    /// For each pair of joined nodes, above its diagonal block: how far down the columns of the later node the unknowns of
    /// the earlier one start.
    below: Vec<usize>,
    /// How far down the columns of a node its own unknowns start.
    own: Vec<usize>,
}

impl Equations {
    /// Numbers the movements that are free, for nodes joined by these pairs.
    pub fn of(free: &[[bool; 6]], pairs: &[[usize; 2]]) -> Result<(Equations, Columns), NoFactor> {
        let counts: Vec<usize> = free.iter().map(|node| node.iter().filter(|own| **own).count()).collect();
        let places = order(&graph(&counts, pairs))?;
        let mut sequence = vec![0; places.len()];
        for (node, &place) in places.iter().enumerate() {
            sequence[place] = node;
        }
        let earlier = earlier(&counts, pairs, &places);
        let mut equations =
            Equations { unknowns: vec![[HELD; 6]; free.len()], count: 0, below: Vec::new(), own: vec![0; free.len()] };
        let mut columns = Columns { starts: vec![0], rows: Vec::new() };
        for &node in &sequence {
            let first = equations.count;
            for (unknown, free) in equations.unknowns[node].iter_mut().zip(free[node]) {
                if free {
                    *unknown = equations.count;
                    equations.count += 1;
                }
            }
            let mut above = Vec::new();
            for &other in &earlier[node] {
                above.extend(equations.unknowns[other].iter().filter(|unknown| **unknown != HELD));
            }
            equations.own[node] = above.len();
            for unknown in first..equations.count {
                columns.rows.extend_from_slice(&above);
                columns.rows.extend(first..=unknown);
                columns.starts.push(columns.rows.len());
            }
        }
        for &pair in pairs {
            let [early, late] = sorted(pair, &places);
            let up_to = earlier[late].iter().take_while(|other| **other != early);
            equations.below.push(up_to.map(|&other| counts[other]).sum());
        }
        Ok((equations, columns))
    }

    /// Adds the stiffness between the two nodes of a pair to the matrix.
    pub fn add(&self, index: usize, pair: [usize; 2], stiffness: &Square, columns: &Columns, values: &mut [f64]) {
        for (own, node) in pair.into_iter().enumerate() {
            let block = |a: usize, b: usize| stiffness[6 * own + a][6 * own + b];
            self.add_block(self.own[node], [node, node], block, columns, values);
        }
        if self.unknowns[pair[0]].iter().min() < self.unknowns[pair[1]].iter().min() {
            self.add_block(self.below[index], pair, |a, b| stiffness[a][b + 6], columns, values);
        } else {
            self.add_block(self.below[index], [pair[1], pair[0]], |a, b| stiffness[a + 6][b], columns, values);
        }
    }

    fn add_block(
        &self,
        below: usize,
        [above, across]: [usize; 2],
        block: impl Fn(usize, usize) -> f64,
        columns: &Columns,
        values: &mut [f64],
    ) {
        for (b, &column) in self.unknowns[across].iter().enumerate().filter(|unknown| *unknown.1 != HELD) {
            let rows = self.unknowns[above].iter().enumerate().filter(|unknown| *unknown.1 != HELD);
            for ((a, _), term) in rows.take_while(|row| *row.1 <= column).zip(columns.starts[column] + below..) {
                values[term] += block(a, b);
            }
        }
    }

    /// Adds forces at the ends of a pair to a right-hand side, turned by `sign`.
    pub fn add_ends(&self, pair: [usize; 2], ends: &Twelve, sign: f64, side: &mut [f64]) {
        for (node, own) in pair.into_iter().zip(ends.chunks_exact(6)) {
            for (&unknown, force) in self.unknowns[node].iter().zip(own).filter(|term| *term.0 != HELD) {
                side[unknown] += sign * force;
            }
        }
    }
}

/// The pair with the node that is eliminated earlier first.
fn sorted(pair: [usize; 2], places: &[usize]) -> [usize; 2] {
    if places[pair[0]] < places[pair[1]] { pair } else { [pair[1], pair[0]] }
}

/// The graph of nodes with unknowns, as columns of the upper half.
fn graph(counts: &[usize], pairs: &[[usize; 2]]) -> Columns {
    let whole: Vec<usize> = (0..counts.len()).collect();
    let joined = earlier(counts, pairs, &whole);
    let mut columns = Columns { starts: vec![0], rows: Vec::new() };
    for (node, before) in joined.iter().enumerate() {
        columns.rows.extend(before);
        columns.rows.push(node);
        columns.starts.push(columns.rows.len());
    }
    columns
}

/// For each node those joined to it that are eliminated earlier, in order.
fn earlier(counts: &[usize], pairs: &[[usize; 2]], places: &[usize]) -> Vec<Vec<usize>> {
    let mut all = vec![Vec::new(); counts.len()];
    for &pair in pairs.iter().filter(|pair| pair.iter().all(|&node| counts[node] > 0)) {
        let [early, late] = sorted(pair, places);
        all[late].push(early);
    }
    for before in &mut all {
        before.sort_unstable_by_key(|&node| places[node]);
        before.dedup();
    }
    all
}
