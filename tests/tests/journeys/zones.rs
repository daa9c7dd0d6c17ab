//! The zones of the brows: the artist marks them with one tap each, the client sees what was marked.

use anyhow::ensure;
use serde_json::json;
use tests::{
    browser::{Browser, Outcome},
    words::say,
};

use crate::{
    artist::Artist,
    scene::{Scene, phone, seats},
};

/// The marks that the form would send, `side_zone-mark` each.
const MARKED: &str = "
    return [...document.querySelectorAll('.choose input:checked')].filter((one) => one.value).map((one) => one.id).join(' ')";

#[tokio::test(flavor = "multi_thread")]
async fn the_artist_taps_the_zones_and_the_client_sees_them() -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::demo().await?;
    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    artist.open("/studio/visits/new").await?;
    let screen = &artist.browser;
    artist.write_client("Ottoline", "07700 900999").await?;
    screen.click("[name=treatments][value=brow_wax]").await?;
    screen.click("details.zones > summary").await?;

    // One tap each, where a finger would land; a second tap takes a mark away.
    tap(screen, "#tap-left-tail").await?;
    tap(screen, "#tap-left-arch").await?;
    tap(screen, "#tap-right-body").await?;
    tap(screen, "#tap-right-body").await?;
    screen.click(".brush button.bare").await?;
    tap(screen, "#tap-right-front").await?;
    screen.click(".brush button.tidy").await?;
    tap(screen, "#tap-left-above").await?;
    tap(screen, "#tap-left-arch").await?;
    let expected = "zone_right_front-nothing_grows zone_left_arch-keep_tidy zone_left_tail-let_it_grow \
                    zone_left_above-keep_tidy";
    let marked = screen.ask(MARKED).await?;
    ensure!(marked == expected, "marked: {marked}");
    screen
        .wait_for_text_in(".marked", "Left brow: arch and skin above.")
        .await?;

    // The list says the same, and moves the drawing.
    screen.click(".zone-list > summary").await?;
    screen.click("#zone_right_tail-let_it_grow").await?;
    screen.find("#tap-right-tail.grow").await?;

    screen.follow(".record .finish button").await?;
    screen.expect_text("Both brows: tail.").await?;
    screen.expect_no_complaints().await?;

    let link = screen.value("#link").await?;
    let client = phone(true).await?;
    client.open_page(&link).await?;
    for text in [
        "Both brows: tail.",
        "Left brow: arch and skin above.",
        &say("zones_told.nothing_grows"),
    ] {
        client.wait_for_text_in("#zones", text).await?;
    }
    client.expect_no_complaints().await?;

    // What was marked is there again at the next visit.
    screen.follow("main a[href*='visits/new?client=']").await?;
    let again = screen.ask(MARKED).await?;
    let expected = expected.replace(
        " zone_left_arch",
        " zone_right_tail-let_it_grow zone_left_arch",
    );
    ensure!(again == *expected, "kept: {again}");
    screen.find("#tap-right-tail.grow").await?;
    Ok(())
}

/// Without JavaScript the list does it.
#[tokio::test(flavor = "multi_thread")]
async fn the_list_of_zones_works_by_itself() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let artist = Artist::come(&scene, false).await?;
    artist.sign_in_to_demo(&scene).await?;
    artist.open("/studio/visits/new").await?;
    let screen = &artist.browser;
    artist.write_client("Ottoline", "07700 900999").await?;
    screen.click("[name=treatments][value=brow_wax]").await?;
    screen.click("details.zones > summary").await?;
    screen.expect_text(&say("artist.zones.how_plain")).await?;
    screen.click(".zone-list > summary").await?;
    screen.click("#zone_left_tail-let_it_grow").await?;
    screen.click("#zone_left_tail-nothing_grows").await?;
    screen.follow(".record .finish button").await?;
    screen.expect_text("Left brow: tail.").await?;
    screen.expect_text(&say("zones_told.nothing_grows")).await
}

/// Where in a zone's target a finger would land: of the places that lie in it and are free, the one nearest to its
/// middle.
const PLACE: &str = "
    const target = document.querySelector(`${zone} .target`);
    target.ownerSVGElement.scrollIntoView({ block: 'center' });
    const { left, top, width, height } = target.getBoundingClientRect();
    let best = null;
    for (let x = 1; x < 20; x++) for (let y = 1; y < 20; y++) {
        const at = [left + width * x / 20, top + height * y / 20];
        const far = Math.hypot(x - 10, y - 10);
        if (document.elementFromPoint(...at) === target && (!best || far < best.far)) best = { far, at };
    }
    return best && best.at;";

/// Taps a zone of the drawing as a finger does.
async fn tap(screen: &Browser, zone: &str) -> Outcome {
    let place = screen
        .ask(&format!("const zone = '{zone}';{PLACE}"))
        .await?;
    let (x, y) = (&place[0], &place[1]);
    ensure!(x.is_number(), "nothing of {zone} can be tapped");
    for kind in ["mousePressed", "mouseReleased"] {
        let event = json!({"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1});
        screen.cdp("Input.dispatchMouseEvent", event).await?;
    }
    Ok(())
}
