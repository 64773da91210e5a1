#include "output/find_lines/trace.h"

#include <array>
#include <opencv2/imgproc.hpp>

namespace rakelight::lines {
namespace {

// Sides before corners: a step to the side of a pixel is the shorter one.
const std::array<cv::Point, 8> kAround{cv::Point{1, 0}, {0, 1},  {-1, 0},  {0, -1},
                                       {1, 1},          {-1, 1}, {-1, -1}, {1, -1}};

class Tracer {
  public:
    explicit Tracer(const cv::Mat& skeleton)
        : ink_(skeleton), taken_(cv::Mat::zeros(skeleton.size(), CV_8U)) {
        cv::Mat nodes = cv::Mat::zeros(skeleton.size(), CV_8U);
        for (int y = 0; y < ink_.rows; ++y)
            for (int x = 0; x < ink_.cols; ++x)
                if (on({x, y}) && branches({x, y}) != 2) nodes.at<unsigned char>(y, x) = 255;
        cv::Mat stats;
        count_ = cv::connectedComponentsWithStats(nodes, node_, stats, middles_, 8, CV_32S) - 1;
    }

    std::vector<Chain> chains() {
        std::vector<Chain> found;
        each_pixel([&](cv::Point p) {
            if (node(p) == 0) return;
            for (const cv::Point& step : kAround)
                if (on(p + step) && node(p + step) == 0 && !taken(p + step))
                    found.push_back(walk(p, p + step));
        });
        each_pixel([&](cv::Point p) {  // loops without a node
            if (node(p) == 0 && !taken(p)) found.push_back(loop(p));
        });
        return found;
    }

  private:
    template <class Visit>
    void each_pixel(Visit visit) {
        for (int y = 0; y < ink_.rows; ++y)
            for (int x = 0; x < ink_.cols; ++x)
                if (on({x, y})) visit(cv::Point(x, y));
    }
    bool on(cv::Point p) const {
        return p.x >= 0 && p.y >= 0 && p.x < ink_.cols && p.y < ink_.rows && ink_.at<unsigned char>(p) != 0;
    }
    int node(cv::Point p) const { return node_.at<int>(p); }
    bool taken(cv::Point p) const { return taken_.at<unsigned char>(p) != 0; }

    /// Runs of neighbours that are on, going round: the crossing number (Rutovitz 1966).
    int branches(cv::Point p) const {
        static const std::array<cv::Point, 8> ring{cv::Point{1, 0}, {1, 1},   {0, 1},  {-1, 1},
                                                   {-1, 0},         {-1, -1}, {0, -1}, {1, -1}};
        int runs = 0;
        for (std::size_t i = 0; i < 8; ++i) runs += on(p + ring[i]) && !on(p + ring[(i + 7) % 8]);
        return runs;
    }
    cv::Point2d middle_of(int n) const {
        return {middles_.at<double>(n, 0) + 0.5, middles_.at<double>(n, 1) + 0.5};
    }
    static cv::Point2d middle_of(cv::Point p) { return {p.x + 0.5, p.y + 0.5}; }

    /// From a node along a chain to the next node, or to a dead end.
    Chain walk(cv::Point start, cv::Point p) {
        Chain chain{node(start) - 1, node(start) - 1, {middle_of(node(start))}};
        cv::Point before = start;
        for (;;) {
            taken_.at<unsigned char>(p) = 255;
            chain.points_px.push_back(middle_of(p));
            const cv::Point next = next_of(p, before, chain.points_px.size() < 4 ? node(start) : 0);
            if (next == p) {  // nowhere to go: an end that is no node
                chain.to = count_++;
                return chain;
            }
            if (node(next) != 0) {
                chain.to = node(next) - 1;
                chain.points_px.push_back(middle_of(node(next)));
                return chain;
            }
            before = p;
            p = next;
        }
    }

    /// A node first, then a pixel that is not taken; not back into the node that was just left. Itself when
    /// there is none.
    cv::Point next_of(cv::Point p, cv::Point before, int left) const {
        for (const cv::Point& step : kAround)
            if (const cv::Point q = p + step; q != before && on(q) && node(q) != 0 && node(q) != left)
                return q;
        for (const cv::Point& step : kAround)
            if (const cv::Point q = p + step; on(q) && node(q) == 0 && !taken(q)) return q;
        for (const cv::Point& step : kAround)
            if (const cv::Point q = p + step; q != before && on(q) && node(q) != 0 && left == 0) return q;
        return p;
    }

    Chain loop(cv::Point start) {
        Chain chain{count_, count_, {}};
        ++count_;
        cv::Point p = start, before = start;
        for (;;) {
            taken_.at<unsigned char>(p) = 255;
            chain.points_px.push_back(middle_of(p));
            const cv::Point next = next_of(p, before, 0);
            if (next == p) break;
            before = p;
            p = next;
        }
        chain.points_px.push_back(middle_of(start));
        return chain;
    }

    const cv::Mat& ink_;
    cv::Mat taken_, node_, middles_;
    int count_ = 0;
};

}  // namespace

std::vector<Chain> trace(const cv::Mat& skeleton) {
    return Tracer(skeleton).chains();
}

}  // namespace rakelight::lines
