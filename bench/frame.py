"""The frames of `engine/examples/frame.rs` with numpy and scipy: assembled in whole arrays, factorised by SuperLU with the
order that is fastest of those it has, solved, member end forces found. Best of many, in milliseconds."""

import time

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as sl

BAY, STOREY, E, G = 4.0, 3.0, 1.1e10, 6.9e8
AREA, IY, IZ, J = 0.04, 1.2e-4, 1.5e-4, 2e-4


def build(bx, by, storeys):
    node = lambda x, y, z: (z * (by + 1) + y) * (bx + 1) + x
    points, pairs, refs, loads = [], [], [], []
    for z in range(storeys + 1):
        for y in range(by + 1):
            for x in range(bx + 1):
                points.append((BAY * x, BAY * y, STOREY * z))
                if z == 0:
                    continue
                pairs.append((node(x, y, z - 1), node(x, y, z)))
                refs.append((1.0, 0.0, 0.0))
                loads.append(0.0)
                for other in ([node(x - 1, y, z)] if x else []) + ([node(x, y - 1, z)] if y else []):
                    pairs.append((other, node(x, y, z)))
                    refs.append((0.0, 0.0, 1.0))
                    loads.append(-2000.0)
    held = (bx + 1) * (by + 1)
    return np.array(points), np.array(pairs), np.array(refs), np.array(loads), held


def local_stiffness(length):
    k = np.zeros((len(length), 12, 12))
    for i, stiffness in ((0, E * AREA / length), (3, G * J / length)):
        k[:, i, i] = k[:, i + 6, i + 6] = stiffness
        k[:, i, i + 6] = k[:, i + 6, i] = -stiffness
    for (v, t), second, sign in (((1, 5), IZ, 1.0), ((2, 4), IY, -1.0)):
        ei = E * second
        a, b, c, d = 12 * ei / length**3, sign * 6 * ei / length**2, 4 * ei / length, 2 * ei / length
        w, u = v + 6, t + 6
        k[:, v, v] = k[:, w, w] = a
        k[:, v, w] = k[:, w, v] = -a
        k[:, v, t] = k[:, t, v] = k[:, v, u] = k[:, u, v] = b
        k[:, w, t] = k[:, t, w] = k[:, w, u] = k[:, u, w] = -b
        k[:, t, t] = k[:, u, u] = c
        k[:, t, u] = k[:, u, t] = d
    return k


def solve(points, pairs, refs, loads, held, order):
    span = points[pairs[:, 1]] - points[pairs[:, 0]]
    length = np.linalg.norm(span, axis=1)
    x = span / length[:, None]
    z = np.cross(x, refs)
    z /= np.linalg.norm(z, axis=1)[:, None]
    turn = np.stack([x, np.cross(z, x), z], axis=1)
    count = len(pairs)
    whole = np.zeros((count, 12, 12))
    for i in range(0, 12, 3):
        whole[:, i : i + 3, i : i + 3] = turn
    local = local_stiffness(length)
    stiffness = np.matmul(whole.transpose(0, 2, 1), np.matmul(local, whole))
    dofs = (pairs[:, :, None] * 6 + np.arange(6)).reshape(count, 12)
    q = turn[:, :, 2] * loads[:, None]
    fixed = np.zeros((count, 12))
    fixed[:, 0:3] = fixed[:, 6:9] = -q * length[:, None] / 2
    fixed[:, 5], fixed[:, 11] = -q[:, 1] * length**2 / 12, q[:, 1] * length**2 / 12
    fixed[:, 4], fixed[:, 10] = q[:, 2] * length**2 / 12, -q[:, 2] * length**2 / 12
    side = np.zeros(len(points) * 6)
    side[6 * held :: 6], side[6 * held + 1 :: 6] = 1000.0, 500.0
    np.add.at(side, dofs.ravel(), -np.einsum("nji,nj->ni", whole, fixed).ravel())
    rows, columns = np.repeat(dofs, 12, axis=1).ravel(), np.tile(dofs, (1, 12)).ravel()
    keep = (rows >= 6 * held) & (columns >= 6 * held)
    matrix = sp.csc_matrix(
        (stiffness.ravel()[keep], (rows[keep] - 6 * held, columns[keep] - 6 * held)),
        shape=(len(side) - 6 * held,) * 2,
    )
    factor = sl.splu(matrix, permc_spec=order, diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    moved = np.zeros(len(side))
    moved[6 * held :] = factor.solve(side[6 * held :])
    ends = np.einsum("nij,nj->ni", np.matmul(local, whole), moved[dofs]) + fixed
    return moved, ends


for size, runs in (((3, 3, 4), 100), ((8, 8, 9), 10)):
    frame = build(*size)
    for order in ("MMD_AT_PLUS_A", "COLAMD"):
        best = float("inf")
        for _ in range(runs):
            begun = time.perf_counter()
            moved, ends = solve(*frame, order)
            best = min(best, time.perf_counter() - begun)
        print(f"{best * 1e3:9.3f} ms  {len(frame[1])} members, {order}; largest movement {abs(moved).max():.9f}")
