//! The server of the page: one build, on this computer only.

mod add;
mod assets;
mod bare;
mod beside;
mod book_job;
mod change;
mod disk;
mod events;
mod fields;
mod frame;
mod guard;
mod had;
mod leaves;
mod pictures;
mod reason;
mod routes;
mod session;
mod standing;
mod step;
mod studies;
mod tables;
#[cfg(test)]
mod tests;
mod turn;
mod wire;

pub use session::Session;

use std::net::Ipv4Addr;

use anyhow::{Context, Result, anyhow};
use axum::serve::ListenerExt;
use tokio::net::TcpListener;

/// Serves a sitting on a port of the loopback address, a free one for 0, until it is interrupted; `ready` is told the port.
///
/// # Errors
/// The port is taken; or the disk does not have the text when the sitting ends, with where a copy of it is kept.
pub fn serve(session: Session, port: u16, ready: impl FnOnce(u16)) -> Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .context("no thread can be started")?;
    runtime.block_on(async {
        let address = (Ipv4Addr::LOCALHOST, port);
        let listener = TcpListener::bind(address).await.with_context(|| format!("port {port} cannot be opened"))?;
        let port = listener.local_addr().context("the port cannot be read")?.port();
        // The end of an answer does not wait for more to send with it; a stream that refuses this is slower, not wrong.
        let listener = listener.tap_io(|stream| drop(stream.set_nodelay(true)));
        ready(port);
        let interrupted = async {
            let _ = tokio::signal::ctrl_c().await;
        };
        let served = routes::Served::new(session);
        let router = routes::router(served.clone(), port);
        // An open event stream must not keep the program from ending.
        let ended = tokio::select! {
            ended = axum::serve(listener, router) => ended.context("the server stopped"),
            () = interrupted => Ok(()),
        };
        let told = served.turns().turn().await.end();
        ended.and(told.map_err(|why| anyhow!(why)))
    })
}
